/** A dispute: both values side by side, who, when, what each does to tonight; settled with one tap. */

import { useState } from "preact/hooks";
import { type Kept, keepChanges } from "../edits/keeping";
import { keepFaultWords } from "../records/fault-words";
import type { Change } from "../store/shapes";
import { t } from "../words/catalogue";
import { AnotherValue } from "./another-value";
import { keepTheirs, settles, takeProposed } from "./deciding";
import { DisputeSide } from "./dispute-side";
import { disputeWords, keepWords } from "./dispute-words";
import { GoesWithIt } from "./goes-with-it";
import { fieldOf, inForce, isRemoved, maySettle, names, proposed } from "./ground";
import { Lost } from "./lost";
import type { WaitingSet } from "./sets";
import { Subject } from "./subject";
import { valuesWords } from "./values";

interface DisputeViewProps {
  set: WaitingSet;
  onSettled: () => void;
}

export function DisputeView({ set, onSettled }: DisputeViewProps) {
  const [fault, setFault] = useState<Exclude<Kept, "kept"> | null>(null);
  const [another, setAnother] = useState(false);
  const [one] = set.atFault;
  if (!one) return <Lost />;
  const field = fieldOf(one.edit);
  const values = [one.edit.was, proposed(one), inForce(one)];
  const [was = "", proposal = "", held = ""] = valuesWords(one.edit.table, field, values, names.value);
  const [mine, theirs] = [takeProposed(set.items, isRemoved), keepTheirs(set.items, inForce)];
  const settle = async (changes: Change[], value: string) => {
    const outcome = await keepChanges(changes, () => t("Settled on {value}.", { value }));
    if (outcome === "kept") onSettled();
    else setFault(outcome);
  };
  const may = maySettle(set) && settles(set.items);
  return (
    <div class="dispute">
      <Subject one={one} />
      <p class="dispute-words">{disputeWords(one, was)}</p>
      <div class="dispute-sides">
        <DisputeSide
          one={one}
          side="mine"
          value={proposed(one)}
          words={proposal}
          was={was}
          onUse={may ? () => settle(mine, proposal) : null}
        />
        <DisputeSide
          one={one}
          side="theirs"
          value={inForce(one)}
          words={held}
          was={was}
          onUse={may ? () => settle(theirs, held) : null}
        />
      </div>
      {may && field !== "removed" ? (
        another ? (
          <AnotherValue set={set} one={one} onKept={onSettled} onBack={() => setAnother(false)} />
        ) : (
          <button type="button" class="button dispute-another" onClick={() => setAnother(true)}>
            {t("Set another value")}
          </button>
        )
      ) : null}
      {fault ? (
        <p class="change-fault" role="alert">
          {keepFaultWords(fault)}
        </p>
      ) : null}
      <p class="dispute-until">{keepWords(held, may)}</p>
      <GoesWithIt set={set} />
    </div>
  );
}
