/** A manager's way in with name and password. */

import { useState } from "preact/hooks";
import { TextField } from "../controls/text-field";
import { refine } from "../way/way";
import { t } from "../words/catalogue";
import { draft, putDraft, signIn } from "./coming-in";
import { deviceGuess } from "./device-name";
import { fieldFault, useDoing } from "./doing";
import { FaultLine } from "./fault-line";
import { PasswordField } from "./password-field";

export function SignInForm() {
  const [password, setPassword] = useState("");
  const doing = useDoing();
  const device = draft.value.device || deviceGuess(navigator.userAgent, navigator.maxTouchPoints > 1);
  return (
    <form
      class="more-form"
      onSubmit={(event) => {
        event.preventDefault();
        void doing
          .run(() => signIn(password, device))
          .then((done) => {
            if (done) refine("tonight");
          });
      }}
    >
      <TextField
        label={t("Sign-in name")}
        value={draft.value.signInName}
        fault={fieldFault(doing.fault, "name")}
        onChange={(signInName) => putDraft({ signInName })}
      />
      <PasswordField
        label={t("Password")}
        kind="current-password"
        value={password}
        fault={fieldFault(doing.fault, "password")}
        onChange={setPassword}
      />
      <button type="submit" class="button button-strong" disabled={doing.busy}>
        {t("Sign in")}
      </button>
      <FaultLine fault={doing.fault} />
    </form>
  );
}
