import { expect, it } from "vitest";
import { fillName, lookOf } from "./programs";

it("gives no two of thirty-six programs the same colour and pattern", () => {
  const names = Array.from({ length: 36 }, (_, place) => fillName(lookOf(place)));
  expect(new Set(names).size).toBe(36);
});
