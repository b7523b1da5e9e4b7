/** What was last done, how far it has come, and the way to take it back: until the next act. */

import { useState } from "preact/hooks";
import "../look/tray.css";
import { keepFaultWords } from "../records/fault-words";
import { unsent, waiting } from "../store/queries";
import { t } from "../words/catalogue";
import { KeepFault, takeBack, tray } from "./commands";
import { stateOf, stateWords } from "./set-state";

export function TrayLine() {
  const kept = tray.value;
  const [fault, setFault] = useState<{ set: string; why: KeepFault["why"] } | null>(null);
  const state = kept ? stateOf(kept.set, unsent.value, waiting.value) : null;
  const undo = async (set: string) => {
    try {
      await takeBack(set);
    } catch (error) {
      if (!(error instanceof KeepFault)) throw error;
      setFault({ set, why: error.why });
    }
  };
  return (
    <div class="tray" data-empty={kept === null}>
      <p class="tray-said" role="status" aria-live="polite">
        {kept ? <bdi>{kept.said()}</bdi> : null} {state ? <span class="tray-state">{stateWords(state)}</span> : null}
        {kept && fault?.set === kept.set ? <span class="tray-fault">{keepFaultWords(fault.why)}</span> : null}
      </p>
      {kept ? (
        <button type="button" class="tray-undo" onClick={() => void undo(kept.set)}>
          {t("Undo")}
        </button>
      ) : null}
    </div>
  );
}
