/** Turning from night to night: which nights can be looked at, and what the address says of the one that is. */

import { refine } from "../way/way";
import { dayAfter } from "../words/moments";
import type { LoadedNight } from "./night";
import { asked, TONIGHT, tonight } from "./night";
import { now } from "./now";

/** The night before tonight, and two weeks from tonight on. */
const BEFORE = -1;
const NIGHTS = 15;

export function nightsAround(base: string): string[] {
  return Array.from({ length: NIGHTS }, (_, index) => dayAfter(base, BEFORE + index));
}

/** So many nights on from this one; null past the first and the last that can be looked at. */
export function nightFrom(base: string, shown: string, by: number): string | null {
  const wanted = dayAfter(shown, by);
  return nightsAround(base).includes(wanted) ? wanted : null;
}

/** The night that the words of an address ask for; null where they name none. */
export function askedBy(words: readonly string[]): string | null {
  const [word] = words;
  if (word === undefined) return TONIGHT;
  return /^\d{4}-\d{2}-\d{2}$/.test(word) && !Number.isNaN(Date.parse(`${word}T12:00:00Z`)) ? word : null;
}

const NOON_S = 43_200;

/** Tonight's date. Where only some other night is known, the wall of that one tells: a night runs from noon to noon. */
export function tonightBy({ clock, sheet }: Pick<LoadedNight, "clock" | "sheet">): string {
  if (tonight.value) return tonight.value;
  if (now.value === 0) return sheet.night;
  return clock
    .wall(now.value - NOON_S)
    .toISOString()
    .slice(0, 10);
}

/** The night that is asked for, which may still be on its way: from it one turns on. */
export function askedNight(base: string): string {
  return asked.value === TONIGHT ? base : asked.value;
}

/** Look at another night. The address says which; tonight has the shortest. */
export function turnTo(night: string): void {
  if (night === TONIGHT || night === tonight.peek()) refine("tonight");
  else refine("tonight", night);
}
