/** A year's budget as the server works it out: what was used stands in the sheets of past nights, which it keeps. */

import type { Budget } from "../../line/api";
import { type KnownAnswer, knownAnswer } from "../../more/known-list";
import { todayHere } from "../../records/today";
import { copy, person } from "../../store/queries";

export function budgetOf(year: string): KnownAnswer<Budget> {
  return knownAnswer(person.peek()?.id ?? "", addressOf(year));
}

export const tableOf = (year: string): string => `${addressOf(year)}/table.csv`;

const addressOf = (year: string) =>
  `/api/sites/${encodeURIComponent(copy.peek()?.site ?? "")}/need/budget/${encodeURIComponent(year)}`;

const FIRST = 1970;
const LAST = 2200;

/** The year that the address names; this year on the site's clock where it names none. */
export function yearIn(word: string | undefined): number {
  const year = Number(word);
  return Number.isInteger(year) && year >= FIRST && year <= LAST ? year : Number(todayHere.value.slice(0, 4));
}

export const hasYear = (year: number): boolean => year >= FIRST && year <= LAST;
