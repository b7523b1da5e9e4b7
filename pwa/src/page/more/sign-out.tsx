/** Going out, with what happens to what was not sent. */

import { person, unsent } from "../store/queries";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { signOut } from "./coming-in";
import { useDoing } from "./doing";
import { FaultLine } from "./fault-line";

export function SignOut() {
  const doing = useDoing();
  const name = person.value?.name ?? "";
  const count = unsent.value.length;
  const leave = async () => {
    if (await doing.run(signOut)) go("more");
  };
  return (
    <div class="more-form">
      {count ? <p class="more-alert">{unsentWords(count, name)}</p> : <p>{t("Nothing is unsent on this phone.")}</p>}
      <p>{t("The site’s copy stays out of sight until somebody with a role there signs in on this phone.")}</p>
      <p>{t("To come back you need a new code, or as a manager your name and password.")}</p>
      <button type="button" class="button button-strong" disabled={doing.busy} onClick={() => void leave()}>
        {t("Sign out {name}", { name })}
      </button>
      <FaultLine fault={doing.fault} />
    </div>
  );
}

function unsentWords(count: number, name: string): string {
  return tn(
    "{count} edit is unsent. It stays on this phone, belongs to {name}, and is sent when {name} signs in here again. Nobody else can send or erase it.",
    "{count} edits are unsent. They stay on this phone, belong to {name}, and are sent when {name} signs in here again. Nobody else can send or erase them.",
    count,
    { name },
  );
}
