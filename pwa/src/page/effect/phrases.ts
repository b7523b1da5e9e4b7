/** What an effect is in words: how much later or earlier, and how far runs move. */

import { catalogue, t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { shortDay } from "../words/moments";
import { volume } from "../words/units";
import { type Comparison, finishLater, moreShort, moreVolume, moveRange } from "./compare";

/** Where the eye goes from before to after. */
export function arrow(): string {
  return catalogue.value.direction === "rtl" ? "←" : "→";
}

/** Seconds to the whole minute, in which all of this is told. */
function minutes(seconds: number): number {
  return Math.round(seconds / 60) * 60;
}

export function laterWords(seconds: number): string {
  const length = { duration: duration(Math.abs(minutes(seconds))) };
  if (minutes(seconds) === 0) return t("at the same time");
  return seconds > 0 ? t("{duration} later", length) : t("{duration} earlier", length);
}

export function finishWords(found: Pick<Comparison, "before" | "after">): string {
  const later = finishLater(found);
  if (later === null) return found.after.finish === null ? t("nothing runs") : t("now something runs");
  const length = { duration: duration(Math.abs(minutes(later))) };
  if (minutes(later) === 0) return t("finish stays");
  return later > 0 ? t("finish, {duration} later", length) : t("finish, {duration} earlier", length);
}

/** `8 to 104 min later`, or both ways where some runs come sooner and others later. */
export function rangeWords(found: Comparison): string {
  const range = moveRange(found.moved);
  if (!range) return "";
  const { least, most } = range;
  if (least >= 0) return spanWords(least, most, true);
  if (most <= 0) return spanWords(-most, -least, false);
  return t("{earlier} earlier to {later} later", {
    earlier: duration(-minutes(least)),
    later: duration(minutes(most)),
  });
}

function spanWords(least: number, most: number, later: boolean): string {
  const [from, to] = [minutes(least), minutes(most)];
  if (from === to) return laterWords(later ? to : -to);
  const span = { least: from / 60, most: to / 60 };
  return later ? t("{least} to {most} min later", span) : t("{least} to {most} min earlier", span);
}

export function movedWords(found: Comparison): string {
  return tn("{count} run moves", "{count} runs move", found.moved.length);
}

/** What the water comes to: more, less, and how much of it does not fit. */
export function waterWords(found: Comparison): string[] {
  const [given, short] = [moreVolume(found), moreShort(found)];
  const said: string[] = [];
  if (given >= 1) said.push(t("{volume} more water.", { volume: volume(given) }));
  if (given <= -1) said.push(t("{volume} less water.", { volume: volume(-given) }));
  if (short >= 1) said.push(t("{volume} more falls short.", { volume: volume(short) }));
  if (short <= -1) said.push(t("{volume} less falls short.", { volume: volume(-short) }));
  return said;
}

export function nightTitle(night: string, tonight: boolean): string {
  return tonight ? t("Tonight with this change") : t("The night of {date} with this change", { date: shortDay(night) });
}
