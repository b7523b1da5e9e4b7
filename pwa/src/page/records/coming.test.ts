import { expect, it } from "vitest";
import { aNight, aRun, NOON } from "../night/builders";
import type { KnownNight } from "../night/nights";
import type { ClockData } from "../site/clock";
import { comingNights, nextClockChange } from "./coming";

const clock = (night: string, changes: ClockData["changes"] = []): ClockData => ({
  night,
  starts: NOON,
  ends: NOON + 86_400,
  offset_s: 0,
  changes,
  sunset: null,
  sunrise: null,
});

const known = (night: string, programs: (string | null)[], changes: ClockData["changes"] = []): KnownNight => ({
  sheet: aNight(
    programs.map((program, at) =>
      aRun({ program, turn: `t${at}`, start: NOON + at * 600, end: NOON + at * 600 + 300, volume_l: 100 }),
    ),
  ),
  clock: clock(night, changes),
  from: "server",
  behind: false,
});

it("tells the nights in which a program runs, in order, from its first start to its last end", () => {
  const nights = new Map([
    ["2026-10-26", known("2026-10-26", ["p", "q", "p"])],
    ["2026-10-25", known("2026-10-25", ["q"])],
    ["2026-10-24", known("2026-10-24", ["p"])],
  ]);
  const coming = comingNights(nights, "p");
  expect(coming.map(({ night, runs }) => [night, runs])).toEqual([
    ["2026-10-24", 1],
    ["2026-10-26", 2],
  ]);
  expect(coming[1]).toMatchObject({ start: NOON, end: NOON + 1500, litres: 200, shortL: 0 });
});

it("finds the next clock change, and none that is past", () => {
  const change = { at: NOON + 3600, before_s: 3600, after_s: 0 };
  const nights = new Map([["2026-10-24", known("2026-10-24", [], [change])]]);
  expect(nextClockChange(nights, NOON)).toEqual({ night: "2026-10-24", ...change });
  expect(nextClockChange(nights, NOON + 7200)).toBeNull();
});
