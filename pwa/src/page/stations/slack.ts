/** How long a turn can get while the night still ends when it does: a few plans, one after the other, when nobody waits. */

import { compare } from "../effect/compare";
import { knownNights, nightOf, withChanges } from "../effect/grounds";
import { NoPlanner, planNight, Unsound } from "../planner/planner";
import { copy } from "../store/queries";
import { type RunValue, runChange } from "./run-times";

/** So many minutes more are looked at, which takes five plans. */
const FURTHEST = 32;

export interface Slack {
  run_s: number;
  finish: number;
  night: string;
  /** No end was found within what is looked at. */
  further: boolean;
}

/** Null where no minute is free, or nobody can say: without a planner, or overtaken by what somebody waits for. */
export async function slackOf(turn: string, value: RunValue): Promise<Slack | null> {
  try {
    return await lookedUp(turn, value);
  } catch (error) {
    const overtaken = error instanceof DOMException && error.name === "AbortError";
    if (overtaken || error instanceof NoPlanner || error instanceof Unsound) return null;
    throw error;
  }
}

async function lookedUp(turn: string, value: RunValue): Promise<Slack | null> {
  const night = nightOf([runChange(turn, value)]);
  const known = knownNights.peek().get(night);
  const finish = known?.sheet.finish ?? null;
  if (!known || finish === null || !known.sheet.runs.some((run) => run.turn === turn)) return null;
  const free = await mostMinutes(async (minutes) => {
    const data = copy.peek();
    if (!data) return false;
    const changed = withChanges(data, [runChange(turn, { ...value, run_s: value.run_s + minutes * 60 })]);
    const { sheet } = await planNight("slack", changed, night, known.sheet);
    const { short } = compare(known.sheet, sheet);
    return (sheet.finish ?? 0) <= finish && short.fresh.length === 0;
  });
  return free > 0 ? { run_s: value.run_s + free * 60, finish, night, further: free === FURTHEST - 1 } : null;
}

/** The most minutes that hold, by halving; taken that fewer hold where more do. */
export async function mostMinutes(holds: (minutes: number) => Promise<boolean>): Promise<number> {
  let [good, bad] = [0, FURTHEST];
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (await holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}
