/** Asking somebody to the site: a role, whom it is for, and then the code. */

import { useState } from "preact/hooks";
import { Choice } from "../controls/choice";
import { TextField } from "../controls/text-field";
import { copy, site } from "../store/queries";
import type { Role } from "../store/shapes";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { CodeCard } from "./code-card";
import { type Invited, invite } from "./crew";
import { fieldFault, useDoing } from "./doing";
import { FaultLine } from "./fault-line";
import { ROLES, roleAbout, roleName } from "./role-words";

const LONGEST = 200;

export function Invite() {
  const [role, setRole] = useState<Role>("crew");
  const [name, setName] = useState("");
  const [invited, setInvited] = useState<Invited | null>(null);
  const doing = useDoing();
  const at = copy.value?.site ?? "";
  if (invited) {
    return <CodeCard invited={invited} forWhom={forWhom(role, name)} onDone={() => go("more", "team")} />;
  }
  return (
    <form
      class="more-form"
      onSubmit={(event) => {
        event.preventDefault();
        void doing.run(async () => setInvited(await invite(at, role, name)));
      }}
    >
      <Choice
        label={t("Role")}
        value={role}
        options={ROLES.map((one) => ({ value: one, label: roleName(one), about: roleAbout(one) }))}
        onChange={setRole}
      />
      <TextField
        label={t("Whom it is for")}
        value={name}
        most={LONGEST}
        hint={t("For the list of open invitations. It may stay empty.")}
        fault={fieldFault(doing.fault, "name")}
        onChange={setName}
      />
      <button type="submit" class="button button-strong" disabled={doing.busy}>
        {t("Make a code")}
      </button>
      <FaultLine fault={doing.fault} />
    </form>
  );
}

function forWhom(role: Role, name: string): string {
  const shown = { role: roleName(role), site: site.value?.name ?? "" };
  if (!name.trim()) return t("A way into {site} as {role}.", shown);
  return t("For {name}: a way into {site} as {role}.", { ...shown, name: name.trim() });
}
