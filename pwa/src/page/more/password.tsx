/** A manager's sign-in name and password: the way back in when there is nobody to make a code. */

import { useEffect, useState } from "preact/hooks";
import { TextField } from "../controls/text-field";
import { t } from "../words/catalogue";
import { setPassword } from "./crew";
import { fieldFault, useDoing } from "./doing";
import { FaultLine } from "./fault-line";
import { PasswordField } from "./password-field";
import { askSession, session } from "./session";

const LONGEST_NAME = 80;

export function Password() {
  const had = session.value?.sign_in_name ?? null;
  const [name, setName] = useState(had ?? "");
  const [password, setNew] = useState("");
  const [present, setPresent] = useState("");
  const [done, setDone] = useState(false);
  const doing = useDoing();
  useEffect(() => {
    if (!session.peek()) void doing.run(async () => setName((await askSession()).sign_in_name ?? ""));
  }, []);
  const submit = async () => {
    setDone(false);
    if (!(await doing.run(() => setPassword(name.trim(), password, present)))) return;
    setDone(true);
    setNew("");
    setPresent("");
    void doing.run(askSession);
  };
  return (
    <form
      class="more-form"
      onSubmit={(event) => {
        event.preventDefault();
        void submit();
      }}
    >
      <p>
        {t("With a name and a password a manager signs in on any device. Setting them ends all your other devices.")}
      </p>
      <TextField
        label={t("Sign-in name")}
        value={name}
        most={LONGEST_NAME}
        fault={fieldFault(doing.fault, "name")}
        onChange={setName}
      />
      {had ? (
        <Present value={present} fault={fieldFault(doing.fault, "present_password")} onChange={setPresent} />
      ) : null}
      <PasswordField
        label={t("New password")}
        kind="new-password"
        value={password}
        hint={t("Ten signs or more. A few words are better than odd signs.")}
        fault={fieldFault(doing.fault, "password")}
        onChange={setNew}
      />
      <button type="submit" class="button button-strong" disabled={doing.busy}>
        {t("Set the password")}
      </button>
      <FaultLine fault={doing.fault} />
      <p role="status">{done ? t("The password is set. All your other devices are ended.") : ""}</p>
    </form>
  );
}

interface PresentProps {
  value: string;
  fault: string | null;
  onChange: (value: string) => void;
}

function Present(props: PresentProps) {
  return <PasswordField label={t("Present password")} kind="current-password" {...props} />;
}
