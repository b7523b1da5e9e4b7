/** Times of day as people type them, and the document's clock fields taken apart: a time, or sunrise and sunset. */

import { wallFormat } from "./formats";
import { plainDigits, WordsFault } from "./numbers";

/** A clock field of the document: a time of the wall, or so many seconds from a sunrise or sunset (before is negative). */
export type ClockValue = { of: "wall"; time: string } | { of: "sunrise" | "sunset"; away: number };

const SUN = /^(sunrise|sunset)(?:([+-])(\d{2}):(\d{2}))?$/;
/** The furthest a document lets a time stand from sunrise or sunset. */
export const FURTHEST_S = 12 * 3600 + 59 * 60;

export function clockValue(text: string): ClockValue {
  const sun = SUN.exec(text);
  if (!sun) return { of: "wall", time: text };
  const away = Number(sun[3] ?? 0) * 3600 + Number(sun[4] ?? 0) * 60;
  return { of: sun[1] === "sunrise" ? "sunrise" : "sunset", away: sun[2] === "-" ? -away : away };
}

export function clockText(value: ClockValue): string {
  if (value.of === "wall") return value.time;
  const minutes = Math.round(Math.abs(value.away) / 60);
  if (minutes === 0) return value.of;
  return `${value.of}${value.away < 0 ? "-" : "+"}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

const TIME = /^(\d{1,2})(?:[:.hH]?(\d{2}))?(?:[:.m]?(\d{2}))?\s*h?\s*(\D*)$/;

/**
 * `HH:MM` (with `:SS` where there are seconds) out of `21:30`, `2130`, `9.30 pm`, `21h30` or `9 PM`, with the half of
 * the day in the reader's words too. Raises `WordsFault`.
 */
export function readClock(text: string): string {
  const match = TIME.exec(plainDigits(text.trim()));
  const half = match ? halfOf(match[4] ?? "") : null;
  const hour = match && half !== null ? hourOf(Number(match[1]), half) : null;
  const [minute, second] = [Number(match?.[2] ?? 0), Number(match?.[3] ?? 0)];
  const whole = hour === 24 && minute === 0 && second === 0;
  if (hour === null || (hour > 23 && !whole) || minute > 59 || second > 59) throw notClock(text);
  return `${two(hour)}:${two(minute)}${second ? `:${two(second)}` : ""}`;
}

function notClock(text: string): WordsFault {
  const params = { given: `“${text.trim()}”`, clock_example: "21:30", sun_example: "sunset-00:30" };
  return new WordsFault({ code: "fault.not_clock", params });
}

function hourOf(hour: number, half: "" | "am" | "pm"): number | null {
  if (half === "") return hour;
  if (hour < 1 || hour > 12) return null;
  return (hour % 12) + (half === "pm" ? 12 : 0);
}

/** Which half of the day a word means, in English or the reader's language; null: no such word. */
function halfOf(word: string): "" | "am" | "pm" | null {
  const plain = bare(word);
  if (plain === "") return "";
  if (plain === "am" || plain === "a" || plain === bare(dayPeriod(9))) return "am";
  return plain === "pm" || plain === "p" || plain === bare(dayPeriod(21)) ? "pm" : null;
}

function bare(word: string): string {
  return word.toLowerCase().replace(/[\s.\p{Cf}]/gu, "");
}

function dayPeriod(hour: number): string {
  const format = wallFormat({ hour: "numeric", hourCycle: "h12" });
  const parts = format.formatToParts(new Date(Date.UTC(2000, 0, 1, hour)));
  return parts.find((part) => part.type === "dayPeriod")?.value ?? "";
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
