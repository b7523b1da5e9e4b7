import { expect, it } from "vitest";
import { season as built, days } from "./builders";
import { isStressed, rangesFor, shownDays, sumsOf } from "./days";

it("shows so many days back, or all", () => {
  const all = days("2026-07-01", 40);
  expect(shownDays(all, 30)[0]?.day).toBe("2026-07-11");
  expect(shownDays(all, 0)).toHaveLength(40);
});

it("offers no range that would show what all of them show", () => {
  expect(rangesFor(10)).toEqual([0]);
  expect(rangesFor(40)).toEqual([14, 30, 0]);
  expect(rangesFor(400)).toEqual([14, 30, 90, 0]);
});

it("adds up water, and counts days on which plants took less than they would have", () => {
  const three = built([{ rain_mm: 6, rain_ran_off_mm: 1 }, { applied_mm: 12, ran_off_mm: 2 }, { taken_mm: 3 }]);
  expect(sumsOf(three)).toMatchObject({ rain: 6, applied: 12, taken: 11, ranOff: 3, stressed: 1 });
  expect(isStressed({ demand_mm: 4, taken_mm: 4 - 1e-9 })).toBe(false);
});
