import { describe, expect, it } from "vitest";
import { aRun } from "../night/builders";
import { nearestBlock, nextKey } from "./pointing";

const block = (key: string, x: number, y: number, lane = 0) => ({
  key,
  run: aRun({ turn: key, start: x }),
  lane,
  pieces: [{ x, y, width: 20, height: 10 }],
});
const scene = { blocks: [block("a", 0, 0), block("b", 60, 0), block("c", 62, 100, 1)] };

describe("nearestBlock", () => {
  it("takes the block under the tap, or the nearest within half a target", () => {
    expect(nearestBlock(scene, { x: 5, y: 5 }, null)).toBe("a");
    expect(nearestBlock(scene, { x: 45, y: 5 }, null)).toBe("b");
    expect(nearestBlock(scene, { x: 40, y: 60 }, null)).toBeNull();
  });

  it("lets go on a second tap", () => {
    expect(nearestBlock(scene, { x: 5, y: 5 }, "a")).toBeNull();
  });
});

describe("nextKey", () => {
  it("follows time, whichever way it runs", () => {
    expect(nextKey(scene, "a", "ArrowRight", false)).toBe("b");
    expect(nextKey(scene, "a", "ArrowLeft", true)).toBe("b");
    expect(nextKey(scene, "c", "ArrowRight", false)).toBe("c");
    expect(nextKey(scene, null, "ArrowRight", false)).toBe("a");
  });

  it("goes to the run nearest in time of the next lane", () => {
    expect(nextKey(scene, "b", "ArrowDown", false)).toBe("c");
    expect(nextKey(scene, "c", "ArrowUp", false)).toBe("b");
  });

  it("leaves all other keys to the browser", () => {
    expect(nextKey(scene, "a", "Tab", false)).toBeUndefined();
    expect(nextKey(scene, "a", "Escape", false)).toBeNull();
  });
});
