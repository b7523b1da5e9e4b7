/** Going out, with what happens to what was not sent. */

import { unsentWords } from "../shell/unsent-words";
import { line, person, unsentCounts } from "../store/queries";
import type { Counts } from "../store/shapes";
import { totalOf } from "../store/unsent";
import { followJournal, syncNow } from "../sync/follow";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { signOut } from "./coming-in";
import { useDoing } from "./doing";
import { FaultLine } from "./fault-line";

export function SignOut() {
  const doing = useDoing();
  const name = person.value?.name ?? "";
  const unsent = unsentCounts.value;
  const leave = async () => {
    if (await doing.run(signOut)) go("more");
  };
  return (
    <div class="more-form">
      {totalOf(unsent) ? <Unsent unsent={unsent} name={name} /> : <p>{t("Nothing is unsent on this phone.")}</p>}
      <p>{t("The site’s copy stays out of sight until somebody with a role there signs in on this phone.")}</p>
      <p>{t("To come back you need a new code, or as a manager your name and password.")}</p>
      <button type="button" class="button button-strong" disabled={doing.busy} onClick={() => void leave()}>
        {t("Sign out {name}", { name })}
      </button>
      <FaultLine fault={doing.fault} />
    </div>
  );
}

function Unsent({ unsent, name }: { unsent: Counts; name: string }) {
  const busy = line.value.now === "sending";
  const sendNow = () => {
    syncNow();
    followJournal();
  };
  return (
    <>
      <p class="more-alert">{staysWords(unsent, name)}</p>
      <div class="more-ways">
        <button type="button" class="button" disabled={busy} onClick={sendNow}>
          {busy ? t("Sending…") : t("Send now")}
        </button>
        <button type="button" class="button" onClick={() => go("changes")}>
          {t("See what is unsent")}
        </button>
      </div>
    </>
  );
}

function staysWords(unsent: Counts, name: string): string {
  return tn(
    "{what} stays on this phone, belongs to {name}, and is sent when {name} signs in here again. Nobody else can send or erase it.",
    "{what} stay on this phone, belong to {name}, and are sent when {name} signs in here again. Nobody else can send or erase them.",
    totalOf(unsent),
    { what: unsentWords(unsent), name },
  );
}
