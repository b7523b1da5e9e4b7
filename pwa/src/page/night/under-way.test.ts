import { expect, it } from "vitest";
import { aNight, aRun, NOON } from "./builders";
import { onlyItsRest } from "./under-way";

const START = NOON + 8 * 3600;
const night = aNight([aRun({ turn: "t", station: "a", start: START, end: START + 600 })]);

it("is planned as a whole until its first water runs, and after it only what is to come", () => {
  expect([START - 1, START, START + 1, night.ends - 1].map((now) => onlyItsRest(night, now))).toEqual([
    false,
    false,
    true,
    true,
  ]);
});

it("is planned as a whole when it is another night's turn, or has no runs", () => {
  expect([onlyItsRest(night, night.starts - 1), onlyItsRest(night, night.ends)]).toEqual([false, false]);
  expect(onlyItsRest(aNight([]), START)).toBe(false);
});

it("is never planned as a whole again once a rest of it was accepted", () => {
  const caughtUp = { ...night, notices: [{ code: "notice.keeps_to_clock", params: { from_at: NOON + 60 } }] };
  expect([onlyItsRest(caughtUp, NOON + 60), onlyItsRest(caughtUp, night.ends)]).toEqual([true, false]);
});
