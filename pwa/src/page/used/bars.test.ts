import { describe, expect, it } from "vitest";
import type { UsedLine } from "../line/api";
import { barsOf, ordered, topOf } from "./bars";

function line(key: string, water: Partial<UsedLine>): UsedLine {
  const nothing = { planned_l: 0, delivered_l: 0, assumed_l: 0, beyond_l: 0, lost_l: 0, came_l: 0 };
  return { key, name: "", lost: [], before_l: null, allowed_l: null, ...nothing, ...water };
}

describe("bars of what was used", () => {
  it("are as high as what was planned, of which each part is a share", () => {
    const lines = [
      line("a", { planned_l: 200, delivered_l: 100, assumed_l: 60, lost_l: 40, came_l: 160 }),
      line("b", { planned_l: 100, delivered_l: null, assumed_l: 100, came_l: 100 }),
    ];
    expect(topOf(lines)).toBe(200);
    expect(barsOf(lines)).toEqual([
      { key: "a", name: "", delivered: 50, assumed: 30, lost: 20, beyond: 0 },
      { key: "b", name: "", delivered: 0, assumed: 50, lost: 0, beyond: 0 },
    ]);
  });

  it("leave room for water that nobody planned", () => {
    const lines = [line("a", { planned_l: 10, delivered_l: 10, beyond_l: 40, came_l: 50 })];
    expect(barsOf(lines)).toEqual([{ key: "a", name: "", delivered: 25, assumed: 0, lost: 0, beyond: 100 }]);
  });

  it("stand at nothing where there is no water", () => {
    expect(barsOf([line("a", {})])).toEqual([{ key: "a", name: "", delivered: 0, assumed: 0, lost: 0, beyond: 0 }]);
    expect(topOf([])).toBe(0);
  });

  it("come in the year's order by month, else the greatest first; what is empty is left out", () => {
    const lines = [
      line("1", { planned_l: 1 }),
      line("2", { planned_l: 3 }),
      line("3", {}),
      line("4", { allowed_l: 5 }),
    ];
    expect(ordered(lines, true).map(({ key }) => key)).toEqual(["1", "2", "4"]);
    expect(ordered(lines, false).map(({ key }) => key)).toEqual(["2", "1", "4"]);
  });
});
