/** What was used, as the server has it written down; the last answer is kept for when there is no signal. */

import type { Used } from "../line/api";
import { type KnownAnswer, knownAnswer } from "../more/known-list";
import { todayHere } from "../records/today";
import { copy, person } from "../store/queries";

export const BY = ["month", "supply", "program", "hydrozone"] as const;
export type By = (typeof BY)[number];

const FIRST = 1970;
const LAST = 2200;

/** What the address names; months where it names nothing. */
export function byIn(word: string | undefined): By {
  return BY.find((by) => by === word) ?? "month";
}

/** The year that the address names; this year on the site's clock where it names none. */
export function yearIn(word: string | undefined): number {
  const year = Number(word);
  return isYear(year) ? year : thisYear();
}

export const thisYear = (): number => Number(todayHere.value.slice(0, 4));
export const isYear = (year: number): boolean => Number.isInteger(year) && year >= FIRST && year <= LAST;

export function usedIn(year: number, by: By): KnownAnswer<Used> {
  return knownAnswer(person.peek()?.id ?? "", addressOf(year, by));
}

/** The same as a file. */
export function fileOf(year: number, by: By, kind: "csv" | "xlsx", language: string): string {
  return `${addressOf(year, by, `/table.${kind}`)}&language=${encodeURIComponent(language)}`;
}

/** A year that is not over ends with last night, so that it is held against as much of the year before. */
function addressOf(year: number, by: By, file = ""): string {
  const until = year < thisYear() ? `&until=${year}-12-31` : "";
  const site = encodeURIComponent(copy.peek()?.site ?? "");
  return `/api/sites/${site}/used${file}?by=${by}&from=${year}-01-01${until}`;
}
