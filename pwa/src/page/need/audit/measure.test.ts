import { afterEach, describe, expect, it } from "vitest";
import { putChoices } from "../../words/reader";
import { diameterOf, measureOf, openingOf } from "./measure";

const audit = (fields: Record<string, unknown>) => ({ table: "audits", id: "a", ...fields });

afterEach(() => putChoices({ units: "metric" }));

describe("what a catch is read in", () => {
  it("is a depth in the reader's own unit", () => {
    expect(measureOf(audit({})).read("7,5")).toBe(7.5);
    putChoices({ units: "us" });
    const inches = measureOf(audit({ caught_in: "mm" }));
    expect(inches.unit).toBe("in");
    expect(inches.read("0.5")).toBeCloseTo(12.7, 9);
    expect(inches.write(12.7)).toBe("0.5");
    expect(inches.steps.map((step) => inches.write(step))).toEqual(["-0.1", "-0.02", "0.02", "0.1"]);
    expect(inches.read("10 mm")).toBe(10);
  });

  it("is millilitres of a can whose opening is known, and no depth without it", () => {
    const known = measureOf(audit({ caught_in: "ml", opening_cm2: 95 }));
    expect(known.depthMm(47.5)).toBeCloseTo(5, 9); // one litre on one square metre is one millimetre
    expect(measureOf(audit({ caught_in: "ml" })).depthMm(47.5)).toBeNull();
  });

  it("leaves what was typed whole to the printed figure", () => {
    const ml = measureOf(audit({ caught_in: "ml", opening_cm2: 95 }));
    for (const read of ["0", "3", "41.5", "250"]) expect(ml.write(ml.read(read))).toBe(read);
  });
});

describe("a round opening", () => {
  it("has the area of its circle, and comes back as its diameter", () => {
    expect(openingOf(110)).toBeCloseTo(95.033, 3); // π · 5.5² cm²
    for (const diameter of [50, 76.2, 110]) expect(diameterOf(openingOf(diameter))).toBeCloseTo(diameter, 9);
  });
});
