/** New run times for many turns at once: by percent, by minutes, or all the same. Plain arithmetic, within the limits. */

import type { Change } from "../store/shapes";
import type { TurnLine } from "./list";

export type Way = "percent" | "minutes" | "same";

export const LEAST_S = 60;
/** The longest run time a document holds. */
export const MOST_S = 12 * 3600;
export const MOST_CYCLES = 48;
export const MOST_SOAK_S = 24 * 3600;

/** What a group `run` of a turn holds: values that are only valid together. */
export interface RunValue {
  run_s: number;
  cycles: number;
  soak_s: number;
}

export interface NewTime {
  turn: TurnLine;
  run_s: number;
}

/** A long run keeps to whole minutes, a short one to ten seconds: common practice, no source. */
export function rounded(seconds: number): number {
  const step = seconds >= 600 ? 60 : 10;
  return Math.round(seconds / step) * step;
}

export function newTime(run_s: number, way: Way, by: number): number {
  const wished =
    way === "percent" ? rounded((run_s * (100 + by)) / 100) : way === "minutes" ? run_s + by * 60 : by * 60;
  return Math.min(MOST_S, Math.max(Math.min(LEAST_S, run_s), wished));
}

/** The turns whose time changes. */
export function newTimes(turns: readonly TurnLine[], way: Way, by: number): NewTime[] {
  return turns
    .map((turn) => ({ turn, run_s: newTime(turn.run_s, way, by) }))
    .filter(({ turn, run_s }) => run_s !== turn.run_s);
}

export function runChange(turn: string, { run_s, cycles, soak_s }: RunValue): Change {
  return { kind: "set", table: "turns", record: turn, field: "run", now: { run_s, cycles, soak_s } };
}

export function changesFor(times: readonly NewTime[]): Change[] {
  return times.map(({ turn, run_s }) => runChange(turn.id, { ...turn, run_s }));
}

/** Minutes of all these turns together, before and after. */
export function total(turns: readonly { run_s: number }[]): number {
  return turns.reduce((sum, turn) => sum + turn.run_s, 0);
}
