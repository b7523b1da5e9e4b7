import { expect, it } from "vitest";
import { HOUR, lisbon, NOON } from "../night/builders";

const wall = (instant: number) => lisbon().wall(instant).toISOString().slice(11, 16) + lisbon().mark(instant);

it("reads the wall before, in and after the hour that comes twice", () => {
  expect(wall(NOON)).toBe("12:00");
  expect(wall(NOON + 13 * HOUR - 60)).toBe("00:59");
  expect(wall(NOON + 13 * HOUR)).toBe("01:00¹");
  expect(wall(NOON + 14 * HOUR - 60)).toBe("01:59¹");
  expect(wall(NOON + 14 * HOUR)).toBe("01:00²");
  expect(wall(NOON + 15 * HOUR)).toBe("02:00");
});
