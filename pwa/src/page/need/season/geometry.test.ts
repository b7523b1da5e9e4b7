import { expect, it } from "vitest";
import { days, season } from "./builders";
import { barsOf, placeAt, readyPath, spellsOf, stressPaths, ticksOf, waterPath } from "./geometry";

const BOX = { width: 100, bars: 50, soil: 100 };

it("draws full soil to the top and empty soil at the floor", () => {
  const two = season([{ depletion_mm: 0 }, { depletion_mm: 40 }]);
  expect(waterPath(two, BOX)).toBe("M0 100L0 0H50L50 100H100V100Z");
  expect(waterPath(season([{ depletion_mm: 10 }]), BOX)).toBe("M0 100L0 25H100V100Z");
});

it("draws the level of stress where it lies on each day", () => {
  expect(readyPath(season([{ ready_mm: 20 }, { ready_mm: 10 }]), BOX)).toBe("M0 50H50L50 25H100");
});

it("marks spells of stress from the level down to the water, each by itself", () => {
  const three = season([
    { depletion_mm: 30, taken_mm: 3 },
    { depletion_mm: 10 },
    { depletion_mm: 40, taken_mm: 1 },
    { depletion_mm: 30, taken_mm: 3 },
  ]);
  expect(spellsOf(three)).toEqual([
    [0, 1],
    [2, 4],
  ]);
  expect(stressPaths(three, BOX)).toEqual(["M0 50H25L25 75H0Z", "M50 50H75L75 50H100L100 75H75L75 100H50Z"]);
});

it("marks no stress where the next night's water came in time", () => {
  expect(spellsOf(season([{ depletion_mm: 21 }, { depletion_mm: 2 }]))).toEqual([]);
});

it("gives dry days no bar, and the most of all the whole height", () => {
  const three = season([{ rain_mm: 5 }, { applied_mm: 20 }]);
  expect(barsOf(three, "rain_mm", BOX)).toEqual([{ x: 5, y: 37.5, width: 20, height: 12.5 }]);
  expect(barsOf(three, "applied_mm", BOX)).toEqual([{ x: 75, y: 0, width: 20, height: 50 }]);
});

it("draws nothing of no days", () => {
  expect([waterPath([], BOX), readyPath([], BOX), stressPaths([], BOX), barsOf([], "rain_mm", BOX)]).toEqual([
    "",
    "",
    [],
    [],
  ]);
});

it("names weeks in a month, months in a year, and never two that would touch", () => {
  expect(ticksOf(days("2026-10-01", 24), 300, 60).map(({ day }) => day.slice(8))).toEqual(["01", "08", "15", "22"]);
  expect(ticksOf(days("2026-10-01", 24), 150, 60).map(({ day }) => day.slice(8))).toEqual(["01", "15"]);
  expect(ticksOf(days("2026-03-20", 200), 300, 60).map(({ day }) => day)).toEqual([
    "2026-04-01",
    "2026-06-01",
    "2026-08-01",
    "2026-10-01",
  ]);
});

it("finds the day under a finger, in either direction of reading, and none outside", () => {
  expect([placeAt(0, 10, 100, false), placeAt(99, 10, 100, false), placeAt(55, 10, 100, false)]).toEqual([0, 9, 5]);
  expect([placeAt(0, 10, 100, true), placeAt(99, 10, 100, true)]).toEqual([9, 0]);
  expect([placeAt(-20, 10, 100, false), placeAt(400, 10, 100, false)]).toEqual([0, 9]);
});
