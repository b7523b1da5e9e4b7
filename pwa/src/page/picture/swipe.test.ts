import { describe, expect, it } from "vitest";
import { nightsSwiped } from "./swipe";

const from = { x: 200, y: 300, at: 0 };

describe("a stroke over the picture", () => {
  it("turns to the night after when it goes against time, to the one before when it goes with it", () => {
    expect(nightsSwiped(from, { x: 80, y: 310, at: 200 }, false)).toBe(1);
    expect(nightsSwiped(from, { x: 320, y: 310, at: 200 }, false)).toBe(-1);
  });

  it("is mirrored with time", () => {
    expect(nightsSwiped(from, { x: 80, y: 310, at: 200 }, true)).toBe(-1);
    expect(nightsSwiped(from, { x: 320, y: 310, at: 200 }, true)).toBe(1);
  });

  it("means nothing when it is short, steep or slow", () => {
    expect(nightsSwiped(from, { x: 160, y: 300, at: 200 }, false)).toBe(0);
    expect(nightsSwiped(from, { x: 80, y: 400, at: 200 }, false)).toBe(0);
    expect(nightsSwiped(from, { x: 80, y: 300, at: 2000 }, false)).toBe(0);
  });
});
