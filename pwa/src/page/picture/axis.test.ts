import { describe, expect, it } from "vitest";
import { aNight, aRun, HOUR, lisbon, NOON } from "../night/builders";
import { freeStretch, hourTicks, labelled, stretchOf } from "./axis";

const closed = (start: number, end: number) => ({ closure: null, supply: null, whole: true, start, end });

describe("the time axis", () => {
  it("leaves out the hours at both ends in which the whole site is closed", () => {
    const night = aNight([], [closed(NOON, NOON + 9 * HOUR), closed(NOON + 19 * HOUR, NOON + 25 * HOUR)]);
    expect(freeStretch(night)).toEqual({ from: NOON + 9 * HOUR, to: NOON + 19 * HOUR });
    expect(stretchOf(night, lisbon())).toEqual({ from: NOON + 8 * HOUR, to: NOON + 20 * HOUR });
  });

  it("reaches out to runs that start before any window", () => {
    const night = aNight([aRun({ start: NOON + 7.5 * HOUR })], [closed(NOON, NOON + 9 * HOUR)]);
    expect(stretchOf(night, lisbon()).from).toBe(NOON + 6 * HOUR);
  });

  it("labels the hour that comes twice twice, and tells them apart", () => {
    const ticks = hourTicks({ from: NOON + 12 * HOUR, to: NOON + 16 * HOUR }, lisbon());
    expect(ticks.map((tick) => `${tick.wall.getUTCHours()}${tick.mark}`)).toEqual(["0", "1¹", "1²", "2", "3"]);
  });

  it("gives room to the doubled hour first, then to every second hour where all would crowd", () => {
    const ticks = hourTicks({ from: NOON + 9 * HOUR, to: NOON + 18 * HOUR }, lisbon());
    const x = (at: number) => ((at - NOON) / HOUR) * 15;
    const shown = labelled(ticks, x, 22, []).map((tick) => `${tick.wall.getUTCHours()}${tick.mark}`);
    expect(shown).toContain("1¹");
    const places = labelled(ticks, x, 22, []).map((tick) => x(tick.at));
    for (const [index, place] of places.entries()) {
      if (index > 0) expect(place - (places[index - 1] ?? 0)).toBeGreaterThanOrEqual(22);
    }
  });

  it("keeps hour labels away from the time it is now", () => {
    const ticks = hourTicks({ from: NOON + 9 * HOUR, to: NOON + 12 * HOUR }, lisbon());
    const x = (at: number) => ((at - NOON) / HOUR) * 50;
    const shown = labelled(ticks, x, 22, [x(NOON + 10.5 * HOUR)]).map((tick) => tick.wall.getUTCHours());
    expect(shown).toEqual([21, 0]);
  });
});
