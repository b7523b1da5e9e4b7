/** The night's names and times as people read them: ids become names, instants the site's wall. */

import type { SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";
import { exactTime, timeOfDay } from "../words/moments";
import type { Message, Names } from "../words/say";
import { say } from "../words/say";
import type { ClosedSpan } from "./sheet";

/** An instant on the site's wall, to the minute; ¹ and ² tell the two passings of an hour that comes twice. */
export function timeAt(clock: SiteClock, instant: number): string {
  return timeOfDay(clock.wall(instant)) + clock.mark(instant);
}

/** The same to the second, where somebody wants to know exactly. */
export function exactTimeAt(clock: SiteClock, instant: number): string {
  return exactTime(clock.wall(instant)) + clock.mark(instant);
}

export function namesOf(night: { document: SiteDocument; clock: SiteClock }): Names {
  return {
    name: (kind, record) => night.document.nameOf(kind, record),
    time: (instant) => exactTimeAt(night.clock, instant),
  };
}

export function sayFor(night: { document: SiteDocument; clock: SiteClock }, message: Message): string {
  return say(message, namesOf(night));
}

/** What a closed span is called. */
export function closedName(document: SiteDocument, span: Pick<ClosedSpan, "closure">): string {
  return span.closure ? document.nameOf("closure", span.closure) : t("No window open");
}

/** `01:00–02:00`, for the hour that comes twice or not at all. */
export function hourSpan(from: Date, to: Date): string {
  return t("{start}–{end}", { start: timeOfDay(from), end: timeOfDay(to) });
}
