/** A person's role at the site: changed at once, and taken back by choosing the one before. */

import { Choice } from "../controls/choice";
import { copy, site } from "../store/queries";
import type { Role } from "../store/shapes";
import { go, place } from "../way/way";
import { t } from "../words/catalogue";
import { giveRole, removeFromTeam, type TeamMember } from "./crew";
import { useDoing } from "./doing";
import { FaultLine } from "./fault-line";
import { PutOffButton } from "./put-off-button";
import { ROLES, roleAbout, roleName } from "./role-words";

export function MemberRole({ member, onChanged }: { member: TeamMember; onChanged: () => void }) {
  const doing = useDoing();
  const at = copy.value?.site ?? "";
  const give = async (role: Role) => {
    if (await doing.run(() => giveRole(member.id, at, role))) onChanged();
  };
  const leave = async (act: () => Promise<unknown>) => {
    if (!(await doing.run(act))) return;
    onChanged();
    // Whoever went elsewhere meanwhile is left there.
    if (place.peek().words[1] === member.id) go("more", "team");
  };
  const named = { name: member.name, site: site.value?.name ?? "" };
  return (
    <>
      <Choice<Role>
        label={t("Role")}
        value={member.role}
        options={ROLES.map((one) => ({ value: one, label: roleName(one), about: roleAbout(one) }))}
        disabled={doing.busy}
        onChange={(role) => void give(role)}
      />
      <FaultLine fault={doing.fault} />
      <div class="more-ways">
        <PutOffButton
          label={t("Take off this site")}
          waiting={t("{name} is about to be taken off {site}.", named)}
          disabled={doing.busy}
          act={() => void leave(() => giveRole(member.id, at, null))}
        />
        <PutOffButton
          label={t("Take out of the team")}
          waiting={t("{name} is about to be taken out of the team, with all devices.", named)}
          disabled={doing.busy}
          act={() => void leave(() => removeFromTeam(member.id))}
        />
      </div>
      <p class="more-note">
        {t("Whoever leaves stays named in the history. What they had not sent is held until a manager decides.")}
      </p>
    </>
  );
}
