/** What edits do to a night, told in figures: when it ends and what does not fit. */

import { laterWords } from "../effect/phrases";
import { timeAt } from "../night/reading";
import type { SiteClock } from "../site/clock";
import { t } from "../words/catalogue";
import { volume } from "../words/units";
import type { Figures } from "./book";

/** "Finish 05:43, 22 min later." */
export function finishLine(before: Figures | null, after: Figures, clock: SiteClock): string {
  if (after.finish === null) return t("Nothing runs.");
  const time = timeAt(clock, after.finish);
  if (before === null || before.finish === null) return t("Finish {time}.", { time });
  return t("Finish {time}, {later}.", { time, later: laterWords(after.finish - before.finish) });
}

/** What does not fit, and how much more or less water flows. Less than a litre is nothing. */
export function waterLines(before: Figures | null, after: Figures): { text: string; short: boolean }[] {
  const lines: { text: string; short: boolean }[] = [];
  if (after.short_l >= 1) lines.push({ text: t("{volume} short.", { volume: volume(after.short_l) }), short: true });
  if (before === null) return lines;
  const more = after.volume_l - before.volume_l;
  if (more >= 1) lines.push({ text: t("{volume} more water.", { volume: volume(more) }), short: false });
  if (more <= -1) lines.push({ text: t("{volume} less water.", { volume: volume(-more) }), short: false });
  return lines;
}

export function sameFigures(one: Figures, other: Figures): boolean {
  return one.finish === other.finish && one.volume_l === other.volume_l && one.short_l === other.short_l;
}

/** What each side of a dispute would do, as the server weighed it; null where it has not yet, or could not. */
export function sidesOf(effect: Record<string, unknown> | null): Sides | null {
  if (!effect || typeof effect.night !== "string") return null;
  const sides = { night: effect.night, mine: figuresIn(effect.mine), theirs: figuresIn(effect.theirs) };
  return sides.mine || sides.theirs ? sides : null;
}

export interface Sides {
  night: string;
  mine: Figures | null;
  theirs: Figures | null;
}

function figuresIn(given: unknown): Figures | null {
  if (typeof given !== "object" || given === null) return null;
  const { finish, volume_l, short_l } = given as Record<string, unknown>;
  if (typeof volume_l !== "number" || typeof short_l !== "number") return null;
  return { finish: typeof finish === "number" ? finish : null, volume_l, short_l };
}
