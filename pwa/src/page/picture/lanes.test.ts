import { describe, expect, it } from "vitest";
import { aNight, aRun, aSite, supply } from "../night/builders";
import { lanesOf } from "./lanes";

const lanes = (site: ReturnType<typeof aSite>, ...used: string[]) =>
  lanesOf(site, aNight(used.map((id, index) => aRun({ supply: id, turn: String(index) })))).map((lane) => [
    lane.supply,
    lane.limitLpm,
  ]);

describe("lanesOf", () => {
  it("walks down to the main that decides while there is only one", () => {
    expect(lanes(aSite(supply("well", 100), supply("main", 60, "well")), "main")).toEqual([["main", 60]]);
  });

  it("gives each branch a lane where together they cannot ask for more than their source gives", () => {
    const site = aSite(supply("town", 600), supply("north", 320, "town"), supply("south", 260, "town"));
    expect(lanes(site, "north", "south")).toEqual([
      ["north", 320],
      ["south", 260],
    ]);
  });

  it("keeps one lane where branches share the limit above them", () => {
    const site = aSite(supply("plant", 500), supply("north", 320, "plant"), supply("south", 260, "plant"));
    expect(lanes(site, "north", "south")).toEqual([["plant", 500]]);
  });

  it("keeps one lane where stations hang on the source itself", () => {
    expect(lanes(aSite(supply("well", 72), supply("main", 60, "well")), "well", "main")).toEqual([["well", 72]]);
  });

  it("leaves out sources without water tonight, and mains without a limit count as their source", () => {
    const site = aSite(supply("idle", 50), supply("pond", 90), supply("pipe", null, "pond"));
    expect(lanes(site, "pipe")).toEqual([["pond", 90]]);
  });

  it("holds every run in exactly one lane", () => {
    const site = aSite(supply("a", null), supply("b", 50, "a"), supply("c", 60, "a"), supply("d", 20, "c"));
    const found = lanesOf(site, aNight(["a", "b", "c", "d"].map((id) => aRun({ supply: id, turn: id }))));
    for (const id of ["a", "b", "c", "d"]) expect(found.filter((lane) => lane.supplies.has(id))).toHaveLength(1);
  });
});
