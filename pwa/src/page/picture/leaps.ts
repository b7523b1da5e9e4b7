/** What a change of the clock does to the hours of the wall, in words. */

import { hourSpan } from "../night/reading";
import type { ClockChange } from "../site/clock";
import { t } from "../words/catalogue";

/** The wall times between which hours run twice, or that never come. */
export function leapSpan({ at, before_s, after_s }: ClockChange): { from: Date; to: Date } {
  const walls = [new Date((at + before_s) * 1000), new Date((at + after_s) * 1000)] as const;
  return before_s > after_s ? { from: walls[1], to: walls[0] } : { from: walls[0], to: walls[1] };
}

/** Short for the plate over the seam, long where there is room for a sentence. */
export function leapWords(change: ClockChange): { short: string; long: string } {
  const { from, to } = leapSpan(change);
  const hours = hourSpan(from, to);
  if (change.before_s > change.after_s) {
    return { short: t("{hours} runs twice", { hours }), long: t("{hours} runs twice; ² is the second.", { hours }) };
  }
  return { short: t("{hours} is left out", { hours }), long: t("{hours} is left out: the clock leaps.", { hours }) };
}
