/** How far a record's edits have come, as a bowl and a word; in lists nothing where all of it is in force. */

import { FillBowl } from "../shell/fill-bowl";
import type { Fill } from "../shell/line-words";
import { type RecordState, stateHere, stateTag, stateWords } from "./record-state";

interface StateBadgeProps {
  table: string;
  id: string;
  /** A whole line instead of a tag. */
  long?: boolean;
}

export function StateBadge({ table, id, long = false }: StateBadgeProps) {
  const state = stateHere(table, id);
  if (state === "in_force" && !long) return null;
  return (
    <span class={long ? "state-line" : "state-tag"}>
      <FillBowl fill={fillOf(state)} />
      <span>{long ? stateWords(state) : stateTag(state)}</span>
    </span>
  );
}

function fillOf(state: RecordState): Fill {
  if (state === "in_force") return "full";
  return state === "sending" ? "half" : "empty";
}
