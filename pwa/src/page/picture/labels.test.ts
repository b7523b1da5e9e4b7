import { describe, expect, it } from "vitest";
import { labelFor } from "./labels";

const full = { code: "N14", place: "Palm walk", letter: "W" };

describe("labelFor", () => {
  it("shows number, place and letter where all fit whole", () => {
    expect(labelFor(true, 120, 60, full)).toEqual(full);
  });

  it("leaves a place out before it would be cut", () => {
    expect(labelFor(true, 63, 60, full).place).toBe("");
    expect(labelFor(true, 120, 30, full)).toEqual({ ...full, place: "" });
  });

  it("says nothing on a sliver", () => {
    expect(labelFor(true, 20, 60, full)).toEqual({ code: "", place: "", letter: "" });
    expect(labelFor(false, 12, 60, full).letter).toBe("");
  });

  it("shows the letter alone on a phone", () => {
    expect(labelFor(false, 120, 60, full)).toEqual({ code: "", place: "", letter: "W" });
  });
});
