import { expect, it } from "vitest";
import { aNight, aRun, aSite, HOUR, NOON, supply } from "./builders";
import { holdingChain } from "./chain";

const at = (hours: number) => NOON + hours * HOUR;
const why = (code: string, params = {}) => ({ code, params });
const site = aSite(supply("source", 300), supply("north", 200, "source"), supply("south", 200, "source"));

it("leads from the finish back to what each run waited for, and ends where a window opens", () => {
  const runs = [
    aRun({ turn: "first", supply: "north", start: at(1), end: at(2), why: why("why.window_opens") }),
    aRun({ turn: "other", supply: "south", start: at(1), end: at(1.5), why: why("why.window_opens") }),
    aRun({ turn: "b", supply: "south", start: at(2), end: at(3), why: why("why.supply_flow", { supply: "source" }) }),
    aRun({ turn: "b", cycle: 2, start: at(3.5), end: at(4), why: why("why.soak_ends", { soak_s: 1800 }) }),
  ];
  expect([...holdingChain(aNight(runs), site)]).toEqual(["b.2", "b.1", "first.1"]);
});

it("does not take a run of another supply for the cause", () => {
  const runs = [
    aRun({ turn: "a", supply: "south", start: at(1), end: at(2) }),
    aRun({ turn: "b", supply: "north", start: at(2), end: at(3), why: why("why.supply_flow", { supply: "north" }) }),
  ];
  expect([...holdingChain(aNight(runs), site)]).toEqual(["b.1"]);
});

it("passes over runs that are late because somebody wants them so", () => {
  const runs = [
    aRun({ turn: "held", start: at(1), end: at(2), why: why("why.window_opens") }),
    aRun({ turn: "late", start: at(8), end: at(9), why: why("why.as_late_as_possible") }),
  ];
  expect([...holdingChain(aNight(runs), site)]).toEqual(["held.1"]);
});

it("is empty where nothing runs", () => {
  expect(holdingChain(aNight([]), site).size).toBe(0);
});
