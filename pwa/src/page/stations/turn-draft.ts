/** A turn's run time as somebody is changing it: kept over a reload until it is kept for good or put back. */

import { draftOf, putDraft } from "../edits/drafts";
import { mayEdit } from "../store/queries";
import type { TurnLine } from "./list";
import type { RunValue } from "./run-times";

export interface TurnDraft {
  value: RunValue;
  changed: boolean;
  mayChange: boolean;
  put: (value: RunValue) => void;
  drop: () => void;
}

/** Reads signals: whoever calls it while drawing is drawn anew when they change. */
export function useTurnDraft(turn: TurnLine): TurnDraft {
  const name = `turn/${turn.id}`;
  const value = draftOf<RunValue>(name) ?? valueOfTurn(turn);
  return {
    value,
    changed: !same(value, turn),
    mayChange: mayEdit.value,
    put: (next) => putDraft(name, same(next, turn) ? null : next),
    drop: () => putDraft(name, null),
  };
}

function valueOfTurn({ run_s, cycles, soak_s }: TurnLine): RunValue {
  return { run_s, cycles, soak_s };
}

function same(one: RunValue, other: RunValue): boolean {
  return one.run_s === other.run_s && one.cycles === other.cycles && one.soak_s === other.soak_s;
}
