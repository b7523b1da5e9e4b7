/** Day rules: on which dates something happens, as the document has them and as people read them. */

import { t, tn } from "./catalogue";
import { figure } from "./figures";
import { wallFormat } from "./formats";
import { listed } from "./lists";
import { longDay } from "./moments";

export const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
export type Weekday = (typeof WEEKDAYS)[number];
export type DayKind = "every_day" | "weekdays" | "every_n" | "odd" | "even" | "dates" | "asked";

/** The document's field group `days`: absent values are null. */
export interface DayRule {
  days: DayKind | null;
  weekdays: string | null;
  every_n_days: number | null;
  every_from: string | null;
  dates: string | null;
  season_from: string | null;
  season_to: string | null;
}

export function chosenDays(list: string | null): Weekday[] {
  const named = partsOf(list);
  return WEEKDAYS.filter((day) => named.includes(day));
}

export function partsOf(list: string | null): string[] {
  return (list ?? "")
    .split(",")
    .map((part) => part.trim())
    .filter(Boolean);
}

/** 2001-01-01 was a Monday. */
function weekdayDate(day: Weekday): Date {
  return new Date(Date.UTC(2001, 0, 1 + WEEKDAYS.indexOf(day), 12));
}

export function weekdayName(day: Weekday, width: "long" | "short" = "long"): string {
  return wallFormat({ weekday: width }).format(weekdayDate(day));
}

/** `MM-DD` as people read it. */
export function dayOfYear(text: string): string {
  const date = new Date(`2000-${text}T12:00:00Z`);
  return wallFormat({ day: "numeric", month: "long" }).format(date);
}

/** The whole rule in a sentence's part: `Mon, Wed and Fri, from 1 May to 30 September`. */
export function dayRuleWords(rule: DayRule): string {
  const days = daysWords(rule);
  if (!rule.season_from || !rule.season_to) return days;
  const season = { days, from: dayOfYear(rule.season_from), to: dayOfYear(rule.season_to) };
  return t("{days}, from {from} to {to}", season);
}

function daysWords(rule: DayRule): string {
  if (rule.days === "weekdays") return listed(chosenDays(rule.weekdays).map((day) => weekdayName(day, "short")));
  if (rule.days === "every_n") return everyWords(rule);
  if (rule.days === "dates") return datesWords(partsOf(rule.dates));
  return plainWords(rule.days ?? "every_day");
}

function plainWords(days: DayKind): string {
  if (days === "odd") return t("odd dates");
  if (days === "even") return t("even dates");
  return days === "asked" ? t("only when asked for") : t("every day");
}

function everyWords(rule: DayRule): string {
  const every = tn("every {count} day", "every {count} days", rule.every_n_days ?? 1);
  return rule.every_from ? t("{every} from {date}", { every, date: longDay(rule.every_from) }) : every;
}

function datesWords(dates: readonly string[]): string {
  if (dates.length <= 3) return listed(dates.map(longDay));
  const more = figure(dates.length - 2, 0);
  return t("{first}, {second} and {more} more", {
    first: longDay(dates[0] ?? ""),
    second: longDay(dates[1] ?? ""),
    more,
  });
}

/** What a rule of another kind needs is taken over where it was there, and begun sensibly where it was not. */
export function ofKind(days: DayKind, value: DayRule, today: string): DayRule {
  const bare: DayRule = { ...value, days, weekdays: null, every_n_days: null, every_from: null, dates: null };
  if (days === "weekdays") return { ...bare, weekdays: value.weekdays ?? "mon,wed,fri" };
  if (days === "every_n")
    return { ...bare, every_n_days: value.every_n_days ?? 2, every_from: value.every_from ?? today };
  if (days === "dates") return { ...bare, dates: value.dates ?? today };
  return days === "asked" ? { ...bare, season_from: null, season_to: null } : bare;
}
