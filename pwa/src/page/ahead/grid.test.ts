import { expect, it } from "vitest";
import { aNight, aRun, aSite, lisbonClockBack } from "../night/builders";
import { aheadNight } from "./almanac";
import { gridOf, step, waters } from "./grid";

const program = (id: string) => ({ table: "programs", id, name: id, letter: id });
const site = aSite(program("a"), program("b"));
const dates = ["2026-10-24", "2026-10-25"];

function nightsWith(...programs: (string | null)[]) {
  const sheet = aNight(programs.map((one, index) => aRun({ turn: `t${index}`, program: one })));
  const known = { sheet, clock: lisbonClockBack(), from: "server" as const, behind: false };
  return new Map([["2026-10-24", aheadNight("2026-10-24", known, site)]]);
}

it("has a line for each program, in the site's order, and a field for each night", () => {
  const lines = gridOf(site, dates, nightsWith("b"));
  expect(lines.map((line) => line.who)).toEqual(["a", "b"]);
  const fields = lines.map((line) => dates.map((date) => line.cells.get(date)));
  expect(fields.map(([known]) => known && waters(known))).toEqual([false, true]);
  expect(fields.map(([, unknown]) => unknown)).toEqual([null, null]);
});

it("has a line for what was asked for by station, where there is any", () => {
  expect(gridOf(site, dates, nightsWith("a", null)).map((line) => line.who)).toEqual(["a", "b", null]);
});

it("leads by the arrow keys, the reader's way, and never off the grid", () => {
  const from = { line: 1, column: 1 };
  expect(step(from, "ArrowRight", 3, 14, false)).toEqual({ line: 1, column: 2 });
  expect(step(from, "ArrowRight", 3, 14, true)).toEqual({ line: 1, column: 0 });
  expect(step(from, "ArrowUp", 3, 14, false)).toEqual({ line: 0, column: 1 });
  expect(step({ line: 2, column: 13 }, "ArrowDown", 3, 14, false)).toEqual({ line: 2, column: 13 });
  expect(step(from, "End", 3, 14, true)).toEqual({ line: 1, column: 13 });
  expect(step(from, "a", 3, 14, false)).toBeNull();
});
