import { expect, it } from "vitest";
import { aNight, aRun, aSite, HOUR, NOON, supply } from "../night/builders";
import { bandPath, groupsOf, limitOf, measureOf, moments, peakOf, xOf } from "./silhouette";

const site = aSite(supply("well", 100), supply("lagoon", 200));
const nine = NOON + 9 * HOUR;
const night = aNight([
  aRun({ supply: "well", start: nine, end: nine + 2 * HOUR, flow_lpm: 60 }),
  aRun({ supply: "lagoon", start: nine + HOUR, end: nine + 3 * HOUR, flow_lpm: 140 }),
]);
const groups = groupsOf(site, [night]);
const found = moments(night, night.runs, groups);

it("tells apart what is fed by different sources, in the document's order", () => {
  expect(groups.map((group) => [group.supply, group.limitLpm])).toEqual([
    ["well", 100],
    ["lagoon", 200],
  ]);
});

it("adds up what flows from each moment to the next", () => {
  expect(found).toEqual([
    { at: 9 * HOUR, flows: [60, 0] },
    { at: 10 * HOUR, flows: [60, 140] },
    { at: 11 * HOUR, flows: [0, 140] },
    { at: 12 * HOUR, flows: [0, 0] },
  ]);
  expect(peakOf(found)).toBe(200);
});

it("leaves no crumbs of decimal flows behind", () => {
  const crumbs = aNight([0.1, 0.2, 0.3].map((flow_lpm, index) => aRun({ turn: `${index}`, supply: "well", flow_lpm })));
  expect(moments(crumbs, crumbs.runs, groups).at(-1)?.flows).toEqual([0, 0]);
});

it("is full height at all limits together", () => {
  expect(limitOf(groups)).toBe(300);
  expect(measureOf([{ sheet: night }], groups)?.fullLpm).toBe(300);
});

it("is full height at the highest peak where a supply has no limit", () => {
  const open = aSite(supply("well", null), supply("lagoon", 200));
  const without = groupsOf(open, [night]);
  expect(limitOf(without)).toBeNull();
  expect(measureOf([{ sheet: night }], without)?.fullLpm).toBe(200);
});

it("stacks bands so that their area is the volume", () => {
  const measure = { from: 9 * HOUR, to: 12 * HOUR, fullLpm: 300 };
  const box = { width: 300, height: 90, mirrored: false };
  expect(area(bandPath(found, 0, measure, box))).toBeCloseTo((60 * 2 * 60 * 300 * 90) / (3 * 60 * 300), 6);
  expect(area(bandPath(found, 1, measure, box))).toBeCloseTo((140 * 2 * 60 * 300 * 90) / (3 * 60 * 300), 6);
});

it("draws nothing for a supply that gives nothing", () => {
  const dry = moments(night, night.runs.slice(0, 1), groups);
  expect(bandPath(dry, 1, { from: 0, to: HOUR, fullLpm: 1 }, { width: 9, height: 9, mirrored: false })).toBe("");
});

it("runs the reader's way", () => {
  const measure = { from: 0, to: 10, fullLpm: 1 };
  expect(xOf(2, measure, { width: 100, height: 1, mirrored: false })).toBe(20);
  expect(xOf(2, measure, { width: 100, height: 1, mirrored: true })).toBe(80);
});

/** By the shoelace formula. */
function area(path: string): number {
  const corners = path
    .slice(1, -1)
    .split("L")
    .map((corner) => corner.split(" ").map(Number));
  return Math.abs(
    corners.reduce((sum, [x = 0, y = 0], index) => {
      const [nextX = 0, nextY = 0] = corners[(index + 1) % corners.length] ?? [];
      return sum + x * nextY - nextX * y;
    }, 0) / 2,
  );
}
