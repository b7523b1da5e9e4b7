import { expect, it } from "vitest";
import type { Work } from "../told/shapes";
import { stepWords } from "./step-words";

function work(values: Record<string, [number, string]>, code = "need.tonight"): Work {
  const figures = Object.entries(values).map(([key, [value, unit]]) => ({
    key,
    value,
    unit,
    inputs: [],
    source: "",
    rung: "",
    row: "",
  }));
  return { turn: "t", night: "2026-07-10", decision: { code, params: {} }, figures, messages: [] };
}

it("tells each step's outcome in the reader's units", () => {
  const given = work({
    reference: [5, "mm"],
    coefficient: [0.8, "1"],
    stress: [0.5, "1"],
    taken: [2, "mm"],
    rain: [3, "mm"],
    effective: [2.4, "mm"],
    net_depth: [24, "mm"],
    multiplier: [1.266, "1"],
    gross_depth: [30.4, "mm"],
    rate: [15, "mm_per_h"],
    run: [7290, "s"],
    cycles: [3, "1"],
    soak: [1800, "s"],
  });
  expect(stepWords("plants", given)).toEqual({
    title: "What the plants used",
    comes: "2 mm",
    line: "5 mm of reference evapotranspiration, times 0.8 for this planting. Dry soil held them to 50 % of it.",
  });
  expect(stepWords("rain", given).line).toBe("3 mm fell; 2.4 mm reached the roots.");
  expect(stepWords("depth", given)).toMatchObject({
    comes: "30.4 mm",
    line: "24 mm for the roots, times 1.27 for uneven wetting.",
  });
  expect(stepWords("minutes", given)).toMatchObject({
    comes: "2 h 1 min 30 s",
    line: "At 15 mm an hour, in 3 cycles with 30 min of soak between them.",
  });
});

it("tells a night that needs nothing from a station whose rate nobody knows", () => {
  expect(stepWords("minutes", work({}, "need.later"))).toMatchObject({ comes: "0 min", line: "Nothing tonight." });
  expect(stepWords("depth", work({}, "need.tonight"))).toMatchObject({ comes: "–" });
});
