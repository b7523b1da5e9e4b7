import fc from "fast-check";
import { expect, it } from "vitest";
import { changesFor, LEAST_S, MOST_S, newTime, newTimes } from "./run-times";

const turn = (id: string, run_s: number) => ({ id, program: "p", letter: "P", run_s, cycles: 2, soak_s: 600 });

it("takes percent, minutes, or one time for all", () => {
  expect([newTime(2880, "percent", 10), newTime(2880, "percent", -50), newTime(250, "percent", 10)]).toEqual([
    3180, 1440, 280,
  ]);
  expect([newTime(2880, "minutes", 5), newTime(2880, "minutes", -60), newTime(600, "same", 48)]).toEqual([
    3180, 60, 2880,
  ]);
});

it("never leaves the limits, and never lengthens what is shortened", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: MOST_S }), fc.integer({ min: -100, max: 200 }), (run_s, by) => {
      const time = newTime(run_s, "percent", by);
      expect(time).toBeLessThanOrEqual(MOST_S);
      expect(time).toBeGreaterThanOrEqual(Math.min(LEAST_S, run_s));
      if (by <= 0) expect(time - run_s).toBeLessThanOrEqual(30);
    }),
  );
});

it("changes only turns whose time changes, cycles and soak as they were", () => {
  const times = newTimes([turn("a", 1200), turn("b", 60)], "percent", -50);
  expect(changesFor(times)).toEqual([
    { kind: "set", table: "turns", record: "a", field: "run", now: { run_s: 600, cycles: 2, soak_s: 600 } },
  ]);
});
