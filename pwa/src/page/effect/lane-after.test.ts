import { describe, expect, it } from "vitest";
import { aRun, NOON } from "../night/builders";
import { flowSteps, reflectionPath } from "./lane-after";

const runs = [
  aRun({ turn: "a", start: NOON, end: NOON + 600, flow_lpm: 40 }),
  aRun({ turn: "b", start: NOON + 300, end: NOON + 900, flow_lpm: 60 }),
];

describe("what flowed before", () => {
  it("is stepped where runs begin and end", () => {
    expect(flowSteps(runs)).toEqual([
      [NOON, 40],
      [NOON + 300, 100],
      [NOON + 600, 60],
      [NOON + 900, 0],
    ]);
  });

  it("hangs from the floor, 0.42 of its height", () => {
    const scene = { x: (at: number) => (at - NOON) / 60, pxPerLpm: 1 };
    expect(reflectionPath(runs, scene, 100)).toBe("M0 100H0V116.8H5V142H10V125.2H15V100V100Z");
    expect(reflectionPath([], scene, 100)).toBe("");
  });
});
