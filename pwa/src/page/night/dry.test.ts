import { describe, expect, it } from "vitest";
import { SiteClock } from "../site/clock";
import { aNight, aRun, aSite, HOUR, lisbon, lisbonClockBack, NOON } from "./builders";
import { dryUntil, instantOf, runsAt, wetFrom, wetSpans } from "./dry";

const at = (hours: number) => NOON + hours * HOUR;
const site = aSite(
  { table: "stations", id: "a", number: "1", name: "", part: "North" },
  { table: "stations", id: "b", number: "2", name: "", part: "North" },
  { table: "stations", id: "c", number: "3", name: "", part: "South" },
);
const night = aNight([
  aRun({ station: "a", start: at(10), end: at(10.5) }),
  aRun({ station: "b", start: at(10.5), end: at(11), cycle: 2 }),
  aRun({ station: "a", start: at(14), end: at(15), cycle: 2 }),
  aRun({ station: "c", start: at(9), end: at(20) }),
]);
const north = wetSpans(runsAt(night, site, { part: "North" }));

describe("dry ground", () => {
  it("gathers the water of a part, and takes spans that touch as one", () => {
    expect(north.map(({ start, end }) => [start, end])).toEqual([
      [at(10), at(11)],
      [at(14), at(15)],
    ]);
    expect(wetSpans(runsAt(night, site, { station: "b" }))).toHaveLength(1);
    expect(wetFrom(north, at(10.9))).toHaveLength(2);
    expect(wetFrom(north, at(11))).toHaveLength(1);
  });

  it("is dry until the very second at which water comes", () => {
    expect(dryUntil(north, at(11), at(14), night.ends)).toEqual({ wet: null, beyond: false });
    expect(dryUntil(north, at(11), at(14) + 1, night.ends).wet?.start).toBe(at(14));
    expect(dryUntil(north, at(10.2), at(10.3), night.ends).wet?.start).toBe(at(10));
  });

  it("says where the night it knows ends", () => {
    expect(dryUntil(north, at(16), night.ends + HOUR, night.ends).beyond).toBe(true);
  });
});

describe("a wall time of the night", () => {
  it("is the next one to come", () => {
    expect(instantOf(lisbon(), "22:30", at(9), night.ends)).toBe(at(10.5));
    expect(instantOf(lisbon(), "13:00", at(9), night.ends)).toBeNull();
    expect(instantOf(lisbon(), "soon", at(9), night.ends)).toBeNull();
  });

  it("is the first passing of an hour that comes twice, the second once that is over", () => {
    expect(instantOf(lisbon(), "01:30", at(9), night.ends)).toBe(at(13.5));
    expect(instantOf(lisbon(), "01:30", at(13.6), night.ends)).toBe(at(14.5));
  });

  it("is the leap itself for an hour that never comes", () => {
    const forward = new SiteClock({
      ...lisbonClockBack(),
      offset_s: 0,
      changes: [{ at: at(13), before_s: 0, after_s: HOUR }],
    });
    const hour = forward.wall(at(13)).getUTCHours();
    expect(instantOf(forward, `${String(hour - 1).padStart(2, "0")}:20`, at(9), night.ends)).toBe(at(13));
  });
});
