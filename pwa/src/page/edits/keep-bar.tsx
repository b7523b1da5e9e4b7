/** The foot of every screen that changes something: put it back, or keep it. No question in between; there is Undo. */

import { useState } from "preact/hooks";
import "../look/tray.css";
import { keepFaultWords } from "../records/fault-words";
import type { Change } from "../store/shapes";
import { t } from "../words/catalogue";
import { type Kept, keepChanges } from "./keeping";

interface KeepBarProps {
  changes: readonly Change[];
  /** What the tray says once they are kept: `Kept 60 min for N14.` */
  said: () => string;
  back: string;
  onBack: () => void;
  keep: string;
  onKept: () => void;
  /** What cannot be read yet: nothing is kept until it can. */
  faults?: readonly string[] | undefined;
  /** The effect in one line, where it is out of sight: it leads to the whole. */
  gist?: string | undefined;
}

export function KeepBar({ changes, said, back, onBack, keep, onKept, faults = [], gist }: KeepBarProps) {
  const [state, setState] = useState<"" | "busy" | Exclude<Kept, "kept">>("");
  const press = async () => {
    setState("busy");
    const outcome = await keepChanges(changes, said);
    setState(outcome === "kept" ? "" : outcome);
    if (outcome === "kept") onKept();
  };
  const wrong = faults.length > 0;
  return (
    <div class="keep-bar">
      <div class="keep-words" role="status">
        {wrong ? faults.map((fault) => <p key={fault}>{fault}</p>) : null}
        {state && state !== "busy" ? <p>{keepFaultWords(state)}</p> : null}
      </div>
      {gist ? (
        <button type="button" class="keep-gist" onClick={showEffect}>
          {gist}
        </button>
      ) : null}
      <div class="keep-buttons">
        <button type="button" class="button" onClick={onBack}>
          {back}
        </button>
        <button
          type="button"
          class="button button-strong"
          disabled={wrong || state === "busy"}
          onClick={() => void press()}
        >
          {state === "busy" ? t("Saving on this phone…") : keep}
        </button>
      </div>
    </div>
  );
}

function showEffect(): void {
  document.querySelector(".effect")?.scrollIntoView({ block: "start" });
}
