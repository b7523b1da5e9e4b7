/** Dates and times of day as people write them. A wall time is a `Date` whose UTC fields are the site's wall. */

import { computed } from "@preact/signals";
import { t } from "./catalogue";
import { duration } from "./durations";
import { wallFormat } from "./formats";
import { hours } from "./reader";

export interface ClockParts {
  /** Hours and minutes, as `23:42`. */
  digits: string;
  /** What stands beside them in a 12-hour clock; empty in a 24-hour one. */
  half: string;
}

function cycle(): Intl.DateTimeFormatOptions {
  if (hours.value === "12") return { hourCycle: "h12" };
  return hours.value === "24" ? { hourCycle: "h23" } : {};
}

/** Two digits in a 24-hour clock, so that times stand in line like a departure board. */
const hour = computed((): Intl.DateTimeFormatOptions => {
  const halved = wallFormat({ hour: "2-digit", minute: "2-digit", ...cycle() }).resolvedOptions().hour12;
  return { hour: halved ? "numeric" : "2-digit", ...cycle() };
});

const clock = computed(() => wallFormat({ ...hour.value, minute: "2-digit" }));
const fineClock = computed(() => wallFormat({ ...hour.value, minute: "2-digit", second: "2-digit" }));

/** The first format that a page makes takes a phone a tenth of a second: it is made while the phone's own store is read. */
export function warmClock(): void {
  clock.value.format(0);
}

/** A time of day: `23:42`, or `11:42 PM` where the reader or their language has it so. */
export function timeOfDay(wall: Date): string {
  return clock.value.format(wall);
}

/** The same with its seconds, where they are not zero. */
export function exactTime(wall: Date): string {
  return (wall.getUTCSeconds() === 0 ? clock : fineClock).value.format(wall);
}

/** A time of day, its digits apart from the half of the day, so that they can be set large. */
export function timeParts(wall: Date): ClockParts {
  return split(clock.value.formatToParts(wall));
}

/** The hour alone, for an axis: `23`, or `11` and `PM`. */
export function hourParts(wall: Date): ClockParts {
  return split(wallFormat(hour.value).formatToParts(wall));
}

function split(parts: Intl.DateTimeFormatPart[]): ClockParts {
  const figures = parts.filter((part) => part.type === "hour" || part.type === "minute");
  const half = parts.find((part) => part.type === "dayPeriod")?.value ?? "";
  return { digits: figures.map((part) => part.value).join(":"), half };
}

/** A calendar date (`YYYY-MM-DD`): `Thu, Nov 26`. */
export function shortDay(day: string): string {
  return wallFormat({ weekday: "short", day: "numeric", month: "short" }).format(noon(day));
}

/** A calendar date (`YYYY-MM-DD`) in full. */
export function longDay(day: string): string {
  return wallFormat({ dateStyle: "medium" }).format(noon(day));
}

/** A night, from its noon to the next: `Sat, Oct 24 – Sun, Oct 25`. */
export function nightSpan(day: string): string {
  return wallFormat({ weekday: "short", day: "numeric", month: "short" }).formatRange(
    noon(day),
    noon(dayAfter(day, 1)),
  );
}

/** A month of the year, 1 to 12, in full. */
export function monthName(month: number): string {
  return wallFormat({ month: "long" }).format(new Date(Date.UTC(2000, month - 1, 15)));
}

function noon(day: string): Date {
  return new Date(`${day}T12:00:00Z`);
}

/** The calendar date so many days later. */
export function dayAfter(day: string, days: number): string {
  return new Date(noon(day).getTime() + days * 86_400_000).toISOString().slice(0, 10);
}

const SUN = /^(sunrise|sunset)(?:([+-])(\d{2}):(\d{2}))?$/;

/** A clock field of the document for people: `21:30`, `24:00`, `sunset-00:30` → `30 min before sunset`. */
export function clockField(text: string): string {
  const sun = SUN.exec(text);
  if (sun) return sunField(sun);
  const [hour = 0, minute = 0, second = 0] = text.split(":").map(Number);
  return exactTime(new Date(Date.UTC(2000, 0, 1, hour % 24, minute, second)));
}

function sunField([, event, sign, hour, minute]: RegExpExecArray): string {
  const away = Number(hour ?? 0) * 3600 + Number(minute ?? 0) * 60;
  const rises = event === "sunrise";
  if (!away) return rises ? t("sunrise") : t("sunset");
  const length = { duration: duration(away) };
  if (sign === "-") return rises ? t("{duration} before sunrise", length) : t("{duration} before sunset", length);
  return rises ? t("{duration} after sunrise", length) : t("{duration} after sunset", length);
}
