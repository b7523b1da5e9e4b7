/** A date as the list sets it: weekday and day above, the month below; and shorter, for the head of a column. */

import { wallFormat } from "../words/formats";

const noon = (date: string) => new Date(`${date}T12:00:00Z`);

function written(date: string, options: Intl.DateTimeFormatOptions): string {
  return wallFormat(options).format(noon(date));
}

/** `Sat 24` and `October`, in the order that the language has. */
export function dayParts(date: string): { day: string; month: string } {
  return { day: written(date, { weekday: "short", day: "numeric" }), month: written(date, { month: "long" }) };
}

/** `Sat` and `24`. */
export function columnParts(date: string): { weekday: string; day: string } {
  return { weekday: written(date, { weekday: "short" }), day: written(date, { day: "numeric" }) };
}
