/** What may be broken, and what becomes of it, in words. */

import { choiceWord } from "../records/choice-words";
import type { SiteRecord } from "../site/document";
import { t, tn } from "../words/catalogue";
import { figure } from "../words/figures";

export function foundName(found: string): string {
  return choiceWord("repairs", "found", found);
}

/** `Broken head × 3`; the count is left out where it is one. */
export function foundWords(found: string, count: number): string {
  return count === 1 ? foundName(found) : t("{what} × {count}", { what: foundName(found), count: figure(count, 0) });
}

export const STATES = ["open", "in_hand", "done", "dropped"] as const;
export type State = (typeof STATES)[number];

export function stateOf(repair: SiteRecord): State {
  return STATES.find((state) => state === repair.state) ?? "open";
}

export function stateName(state: State): string {
  return choiceWord("repairs", "state", state);
}

export function stationsWords(count: number): string {
  return tn("{count} station", "{count} stations", count);
}

/** What is left of a station's time, as a stopwatch shows it: `1:05`. Always so, in every language's digits. */
export function clockWords(left_s: number): string {
  const whole = Math.max(0, Math.ceil(left_s));
  const seconds = whole % 60;
  return `${figure(Math.floor(whole / 60), 0)}:${seconds < 10 ? figure(0, 0) : ""}${figure(seconds, 0)}`;
}
