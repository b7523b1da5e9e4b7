import { describe, expect, it } from "vitest";
import { outline } from "./outline";

describe("outline", () => {
  it("has square shoulders and a round base", () => {
    expect(outline([{ x: 10, y: 20, width: 30, height: 40 }])).toBe("M10 20H40V56A4 4 0 0 1 36 60H14A4 4 0 0 1 10 56Z");
  });

  it("is one outline even where the block steps down", () => {
    const pieces = [
      { x: 0, y: 0, width: 10, height: 5 },
      { x: 10, y: 8, width: 20, height: 5 },
    ];
    expect(outline(pieces)).toBe("M0 0V0H10V8H30V13H10V5H0Z");
  });

  it("draws nothing out of nothing", () => {
    expect(outline([])).toBe("");
  });
});
