/** Days on the site's wall, as instants. */

import { now } from "../night/now";
import { dayAfter } from "../words/moments";
import { wallOf } from "./when";

export function todayOnSite(): string {
  const instant = now.value || Math.floor(Date.now() / 1000);
  return wallOf(instant).toISOString().slice(0, 10);
}

/** The last second of a day on the site's wall. */
export function endOfDay(date: string): number {
  const midnight = Date.parse(`${dayAfter(date, 1)}T00:00:00Z`) / 1000;
  // The wall's offset at about that time takes it back to an instant; near a change of the clock, by one more step.
  const guess = midnight - offsetAt(midnight);
  return midnight - offsetAt(guess) - 1;
}

function offsetAt(instant: number): number {
  return wallOf(instant).getTime() / 1000 - instant;
}
