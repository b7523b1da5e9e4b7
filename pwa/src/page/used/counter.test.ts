import { describe, expect, it } from "vitest";
import { unitsOf } from "../words/units";
import { counterUnit, litresOf } from "./counter";

const volume = unitsOf("volume");
const inLitres = (count: number, unit: string) => {
  const found = volume[unit];
  if (!found) throw new Error(`no unit ${unit}`);
  return litresOf(count, found);
};

describe("a counter's figure in litres", () => {
  it("is exact in cubic metres, gallons and cubic feet", () => {
    expect(inLitres(4021.537, "m3")).toBe(4_021_537);
    // One US gallon is 231 cubic inches, one cubic foot 28.316846592 L: NIST SP 811 (2008), appendix B.
    expect(inLitres(1000, "gal")).toBe(3785.412);
    expect(inLitres(100, "ft3")).toBe(2831.685);
  });

  it("begins with the unit that counters mostly have", () => {
    expect(["metric", "us", "imperial"].map(counterUnit)).toEqual(["m3", "gal", "igal"]);
    expect(["metric", "us", "imperial"].every((set) => counterUnit(set) in volume)).toBe(true);
  });
});
