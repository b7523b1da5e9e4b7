/** What waits without being a dispute: removed, refused, held or parked; what it is, and what can be done. */

import { useState } from "preact/hooks";
import { decide } from "../edits/commands";
import { type Kept, keepChanges } from "../edits/keeping";
import { LineFault } from "../line/fetching";
import { faultLine, keepFaultWords } from "../records/fault-words";
import { t } from "../words/catalogue";
import { AnotherValue } from "./another-value";
import { settles, takeProposed } from "./deciding";
import { editWords } from "./edit-words";
import { fieldOf, isRemoved, mayLetGo, maySettle, names, records } from "./ground";
import { Lost } from "./lost";
import { madeWords } from "./made-words";
import { nameOf } from "./people";
import type { WaitingSet } from "./sets";
import { Subject } from "./subject";
import { told } from "./told";
import { trayAbout } from "./tray-words";

interface DecideViewProps {
  set: WaitingSet;
  onDone: () => void;
}

export function DecideView({ set, onDone }: DecideViewProps) {
  const [said, setSaid] = useState<string | null>(null);
  const [one] = set.atFault;
  if (!one) return <Lost />;
  const ask = async (decision: "accept" | "decline" | "discard") => {
    const words = await decided(one.edit.id, decision);
    setSaid(words);
    if (words === null) onDone();
  };
  const restore = async () => {
    const outcome = await keepChanges(takeProposed(set.items, isRemoved), () => t("Brought back, with the edit."));
    if (outcome === "kept") onDone();
    else setSaid(keepFaultWords(outcome as Exclude<Kept, "kept">));
  };
  return (
    <div class="dispute">
      <Subject one={one} />
      <p class="dispute-words">{trayAbout(set.tray)}</p>
      <section class="side">
        <div class="side-words">
          <ul class="decide-edits">
            {set.items.map((item) => (
              <li key={item.edit.id}>
                <bdi>{editWords(told(item), names.value)}</bdi>
              </li>
            ))}
          </ul>
          <p class="row-under">
            {t("{name}, {when}", { name: nameOf(String(one.edit.person ?? "")), when: madeWords(one, "mine") })}
          </p>
          {one.answer.by !== undefined && set.tray === "removed" ? (
            <p>
              {t("Removed by {name}, {when}.", {
                name: nameOf(one.answer.by, one.answer.by_name),
                when: madeWords(one, "theirs"),
              })}
            </p>
          ) : null}
          <Faults set={set} />
        </div>
      </section>
      <Ways set={set} ask={ask} restore={restore} onDone={onDone} />
      {said ? (
        <p class="change-fault" role="alert">
          {said}
        </p>
      ) : null}
    </div>
  );
}

/** Null: it is done. Else why it could not be. */
async function decided(edit: string, decision: "accept" | "decline" | "discard"): Promise<string | null> {
  try {
    await decide(edit, decision);
    return null;
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    return fault.detail || t("This needs signal. Nothing has changed; try again when there is some.");
  }
}

/** The limits that were broken, by name. */
function Faults({ set }: { set: WaitingSet }) {
  const faults = set.atFault.flatMap((one) => one.answer.faults ?? []);
  if (faults.length === 0) return null;
  return (
    <ul class="decide-faults">
      {faults.map((fault) => {
        const placed = { ...fault, table: fault.table ?? "", record: fault.record ?? "" };
        return (
          <li key={`${placed.table} ${placed.record} ${fault.field} ${fault.code}`}>
            {faultLine(placed, records.value)}
          </li>
        );
      })}
    </ul>
  );
}

interface WaysProps extends DecideViewProps {
  ask: (decision: "accept" | "decline" | "discard") => Promise<void>;
  restore: () => Promise<void>;
}

function Ways({ set, ask, restore, onDone }: WaysProps) {
  const [mending, setMending] = useState(false);
  const [one] = set.atFault;
  const mendable =
    one?.edit.kind === "set" && !isRemoved(one.edit.table, one.edit.record) && fieldOf(one.edit) !== "removed";
  if (mending && one) return <AnotherValue set={set} one={one} onKept={onDone} onBack={() => setMending(false)} />;
  return (
    <div class="change-buttons">
      {set.tray === "refused" && mendable && maySettle(set) ? (
        <Way label={t("Mend it")} strong act={() => setMending(true)} />
      ) : null}
      {set.tray === "removed" && maySettle(set) && settles(set.items) ? (
        <Way label={t("Bring the record back and apply it")} strong act={() => void restore()} />
      ) : null}
      {set.tray === "held" && maySettle(set) ? (
        <>
          <Way label={t("Accept")} strong act={() => void ask("accept")} />
          <Way label={t("Decline")} act={() => void ask("decline")} />
        </>
      ) : null}
      {mayLetGo(set) ? <Way label={t("Discard")} act={() => void ask("discard")} /> : null}
      {set.tray === "held" && !maySettle(set) ? <p>{t("It waits for a manager.")}</p> : null}
    </div>
  );
}

function Way({ label, act, strong = false }: { label: string; act: () => void; strong?: boolean }) {
  return (
    <button type="button" class={strong ? "button button-strong" : "button"} onClick={act}>
      {label}
    </button>
  );
}
