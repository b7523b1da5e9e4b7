import { describe, expect, it } from "vitest";
import { aNight, aRun, aSite, NOON } from "./builders";
import { byPlace, nextRun, openAt, shareDone, toCome } from "./moments";

const night = aNight([
  aRun({ turn: "late", station: "b", start: NOON + 600, end: NOON + 1200 }),
  aRun({ turn: "long", station: "c", start: NOON, end: NOON + 1000 }),
  aRun({ turn: "short", station: "a", start: NOON, end: NOON + 300 }),
]);
const turns = (runs: { turn: string }[]) => runs.map((run) => run.turn);

describe("a night at an instant", () => {
  it("opens at its first second and closes at its last", () => {
    expect(turns(openAt(night, NOON))).toEqual(["short", "long"]);
    expect(turns(openAt(night, NOON + 300))).toEqual(["long"]);
    expect(turns(toCome(night, NOON))).toEqual(["late"]);
    expect(nextRun(night, NOON + 600)).toBeUndefined();
  });

  it("steps bowls once a minute", () => {
    const run = aRun({ start: NOON, end: NOON + 600 });
    expect([0, 59, 60, 599, 600, 900].map((after) => shareDone(run, NOON + after))).toEqual([0, 0, 0.1, 0.9, 1, 1]);
  });

  it("gathers runs by place in the order water comes to them", () => {
    const site = aSite(
      { table: "stations", id: "a", number: "1", name: "", part: "North" },
      { table: "stations", id: "b", number: "2", name: "", part: "South" },
      { table: "stations", id: "c", number: "3", name: "", part: "South" },
    );
    expect(byPlace(night.runs, site).map(({ place, runs }) => [place, turns(runs)])).toEqual([
      ["South", ["late", "long"]],
      ["North", ["short"]],
    ]);
  });
});
