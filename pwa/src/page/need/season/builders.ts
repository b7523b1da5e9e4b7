/** Days of a season for tests: a soil of 40 mm of which plants take 20 with ease. */

import { dayAfter } from "../../words/moments";
import type { SeasonDay } from "../told/shapes";

const USUAL: Omit<SeasonDay, "day"> = {
  reference_mm: 5,
  rung: "full",
  row: "",
  demand_mm: 4,
  rain_mm: 0,
  effective_mm: 0,
  lost_mm: 0,
  rain_ran_off_mm: 0,
  applied_mm: 0,
  ran_off_mm: 0,
  uneven_mm: 0,
  taken_mm: 4,
  percolated_mm: 0,
  depletion_mm: 10,
  ready_mm: 20,
  total_mm: 40,
  flags: [],
};

export function season(given: readonly Partial<SeasonDay>[], first = "2026-07-01"): SeasonDay[] {
  return given.map((own, place) => ({ ...USUAL, day: dayAfter(first, place), ...own }));
}

export function days(first: string, count: number): SeasonDay[] {
  return season(
    Array.from({ length: count }, () => ({})),
    first,
  );
}
