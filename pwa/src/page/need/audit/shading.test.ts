import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BANDS, bandOf, type Depth, depthAt, pathOf, SQUARE, stretchesOf } from "./shading";

const SQUARE_OF_FOUR: Depth[] = [
  { column: 0, row: 0, mm: 4 },
  { column: 1, row: 0, mm: 8 },
  { column: 0, row: 1, mm: 8 },
  { column: 1, row: 1, mm: 12 },
];
const GRID = { columns: 2, rows: 2 };

describe("what fell between cans", () => {
  it("is a can's own depth where it stands", () => {
    expect(depthAt(SQUARE_OF_FOUR, 0, 0)).toBe(4);
    expect(depthAt(SQUARE_OF_FOUR, 1, 1)).toBe(12);
  });

  it("is their mean where all are as far away", () => {
    expect(depthAt(SQUARE_OF_FOUR, 0.5, 0.5)).toBeCloseTo(8, 9);
  });

  it("is unknown where no can is near", () => {
    expect(depthAt(SQUARE_OF_FOUR, 9, 9)).toBeNull();
    expect(depthAt([], 0, 0)).toBeNull();
  });

  it("never goes beyond the driest and the wettest can", () => {
    const depths = fc.array(
      fc.record({
        column: fc.integer({ min: 0, max: 5 }),
        row: fc.integer({ min: 0, max: 5 }),
        mm: fc.float({ min: 0, max: 99, noNaN: true }),
      }),
      { minLength: 1, maxLength: 20 },
    );
    const spot = fc.float({ min: 0, max: 5, noNaN: true });
    fc.assert(
      fc.property(depths, spot, spot, (given, x, y) => {
        const found = depthAt(given, x, y);
        if (found === null) return;
        const all = given.map(({ mm }) => mm);
        expect(found).toBeGreaterThanOrEqual(Math.min(...all) - 1e-6);
        expect(found).toBeLessThanOrEqual(Math.max(...all) + 1e-6);
      }),
    );
  });
});

describe("the picture's bands", () => {
  it("stand around the mean", () => {
    expect([0, 0.59, 0.6, 0.84, 0.85, 1, 1.15, 1.39, 1.4, 9].map(bandOf)).toEqual([0, 0, 1, 1, 2, 2, 3, 3, 4, 4]);
  });

  it("cover the whole ground once", () => {
    const stretches = stretchesOf(SQUARE_OF_FOUR, GRID);
    const covered = stretches.reduce((sum, { width }) => sum + width * SQUARE, 0);
    expect(covered).toBeCloseTo(4, 9);
    expect(stretches.every(({ band }) => band >= 0 && band < BANDS)).toBe(true);
  });

  it("show an even wetting as one band", () => {
    const even = SQUARE_OF_FOUR.map((depth) => ({ ...depth, mm: 7 }));
    expect(new Set(stretchesOf(even, GRID).map(({ band }) => band))).toEqual(new Set([2]));
  });

  it("are none where every can stayed dry", () => {
    expect(
      stretchesOf(
        SQUARE_OF_FOUR.map((depth) => ({ ...depth, mm: 0 })),
        GRID,
      ),
    ).toEqual([]);
  });

  it("are drawn as one path each", () => {
    const stretches = stretchesOf(SQUARE_OF_FOUR, GRID);
    const drawn = Array.from({ length: BANDS }, (_, band) => pathOf(stretches, band, 60));
    expect(drawn.join("").split("M")).toHaveLength(stretches.length + 1);
    expect(pathOf([{ band: 1, x: 0.5, y: 1, width: 0.5 }], 1, 60)).toBe("M30 60h30v10h-30z");
  });
});
