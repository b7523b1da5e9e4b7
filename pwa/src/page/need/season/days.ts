/** A stretch of a hydrozone's days: which are shown, what they add up to, where plants were under stress. */

import type { SeasonDay } from "../told/shapes";

/** So many days back; 0: all there are. */
export const RANGES = [14, 30, 90, 0] as const;
export type Range = (typeof RANGES)[number];

export function shownDays(days: readonly SeasonDay[], range: Range): readonly SeasonDay[] {
  return range === 0 ? days : days.slice(-range);
}

/** The ranges that show fewer days than there are, and all of them. */
export function rangesFor(count: number): Range[] {
  return RANGES.filter((range) => range === 0 || range < count);
}

/** Plants took less than they would have. What rounding leaves is no stress. */
export function isStressed({ demand_mm, taken_mm }: Pick<SeasonDay, "demand_mm" | "taken_mm">): boolean {
  return demand_mm - taken_mm > 0.005;
}

export interface Sums {
  rain: number;
  applied: number;
  taken: number;
  percolated: number;
  ranOff: number;
  stressed: number;
}

export function sumsOf(days: readonly SeasonDay[]): Sums {
  const sum = (of: (day: SeasonDay) => number) => days.reduce((all, day) => all + of(day), 0);
  return {
    rain: sum((day) => day.rain_mm),
    applied: sum((day) => day.applied_mm),
    taken: sum((day) => day.taken_mm),
    percolated: sum((day) => day.percolated_mm),
    ranOff: sum((day) => day.ran_off_mm + day.rain_ran_off_mm),
    stressed: days.filter(isStressed).length,
  };
}
