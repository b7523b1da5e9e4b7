/** What this phone has not sent yet, act by act, each in words and each to be taken back. */

import { useState } from "preact/hooks";
import { KeepFault, takeBack } from "../edits/commands";
import { LineFault } from "../line/fetching";
import { keepFaultWords } from "../records/fault-words";
import { unsentWords } from "../shell/unsent-words";
import { fullness, line, unsent, unsentCount, unsentCounts } from "../store/queries";
import type { Edit } from "../store/shapes";
import { followJournal, syncNow } from "../sync/follow";
import { BesidesEdits } from "../unsent/besides-edits";
import { SaveUnsent } from "../unsent/save-unsent";
import { t } from "../words/catalogue";
import { editWords } from "./edit-words";
import { names } from "./ground";
import { type Act, acts } from "./sets";
import { phoneTime, whenWords } from "./when";

export function UnsentList() {
  const count = unsentCount.value;
  return (
    <section aria-labelledby="unsent-title">
      <div class="list-head">
        <h2 id="unsent-title">{t("Unsent")}</h2>
        {count > 0 ? <p>{unsentWords(unsentCounts.value)}</p> : null}
      </div>
      {count === 0 ? <p class="list-none">{t("Everything has been sent.")}</p> : <Unsent edits={unsent.value} />}
    </section>
  );
}

function Unsent({ edits }: { edits: readonly Edit[] }) {
  return (
    <>
      <Warning />
      <ul class="rows" data-list="unsent">
        {acts(edits).map((act) => (
          <UnsentAct key={act.id} act={act} />
        ))}
      </ul>
      <BesidesEdits />
      <div class="change-buttons">
        <button type="button" class="button" disabled={line.value.now === "sending"} onClick={sendNow}>
          {line.value.now === "sending" ? t("Sending…") : t("Send now")}
        </button>
        <SaveUnsent />
      </div>
    </>
  );
}

function sendNow(): void {
  syncNow();
  followJournal();
}

function Warning() {
  if (fullness.value === "ok") return null;
  return (
    <p class="change-warning" role="alert">
      {fullness.value === "full"
        ? t("This phone can keep no more edits. Find a signal, or save them as a file and hand it to a manager.")
        : t("Much is unsent, or has been for three days. Find a signal soon: until then it is on this phone alone.")}
    </p>
  );
}

function UnsentAct({ act }: { act: Act<Edit> }) {
  const [fault, setFault] = useState("");
  const [first] = act.items;
  const made = phoneTime(first?.phone_time);
  const sent = act.items.every((edit) => edit.sent);
  const aside = act.items.find((edit) => edit.aside)?.aside;
  const undo = async () => {
    try {
      await takeBack(act.id);
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return (
    <li class="change-act" data-set={act.id}>
      <div class="change-what">
        <ul>
          {act.items.map((edit) => (
            <li key={edit.id}>
              <bdi>{editWords(edit, names.value)}</bdi>
            </li>
          ))}
        </ul>
        <p class="row-under">
          {made === null ? null : t("Made {when}.", { when: whenWords(made) })}{" "}
          {sent ? t("On its way: the answer is awaited.") : null}
        </p>
        {aside ? <p class="ahead-short">{t("The server could not read it. It waits for a newer app.")}</p> : null}
        {fault ? <p class="change-fault">{fault}</p> : null}
      </div>
      <button type="button" class="button" onClick={() => void undo()}>
        {t("Take back")}
      </button>
    </li>
  );
}

function faultOf(error: unknown): string {
  if (error instanceof KeepFault) return keepFaultWords(error.why);
  if (error instanceof LineFault) return error.detail || t("This needs signal. Try again when there is some.");
  throw error;
}
