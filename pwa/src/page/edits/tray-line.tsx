/** What was last done, how far it has come, and the way to take it back: until the next act. */

import { useState } from "preact/hooks";
import "../look/tray.css";
import { LineFault } from "../line/fetching";
import { keepFaultWords } from "../records/fault-words";
import { unsent, waiting } from "../store/queries";
import { t } from "../words/catalogue";
import { KeepFault, takeBack, tray } from "./commands";
import { stateOf, stateWords } from "./set-state";

export function TrayLine() {
  const kept = tray.value;
  const [fault, setFault] = useState<{ set: string; words: () => string } | null>(null);
  const state = kept ? stateOf(kept.set, unsent.value, waiting.value) : null;
  const undo = async (set: string) => {
    try {
      await takeBack(set);
    } catch (error) {
      setFault({ set, words: undoFault(error) });
    }
  };
  return (
    <div class="tray" data-empty={kept === null}>
      <p class="tray-said" role="status" aria-live="polite">
        {kept ? <bdi>{kept.said()}</bdi> : null} {state ? <span class="tray-state">{stateWords(state)}</span> : null}
        {kept && fault?.set === kept.set ? <span class="tray-fault">{fault.words()}</span> : null}
      </p>
      {kept ? (
        <button type="button" class="tray-undo" onClick={() => void undo(kept.set)}>
          {t("Undo")}
        </button>
      ) : null}
    </div>
  );
}

/** Why it could not be taken back, in whatever language is read then. */
function undoFault(error: unknown): () => string {
  if (error instanceof KeepFault) return () => keepFaultWords(error.why);
  if (!(error instanceof LineFault)) throw error;
  return () => error.detail || t("This waits on the server: it can be taken back once there is signal.");
}
