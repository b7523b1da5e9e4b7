import { expect, it } from "vitest";
import { beginning, spanTonight } from "./beginning";
import { Records } from "./records";

it("closes tonight from nine, or from the next half hour on where it is later", () => {
  expect(spanTonight("2026-10-24", new Date("2026-10-24T15:10:00Z"))).toEqual({
    starts_on: "2026-10-24T21:00",
    ends_on: "2026-10-24T23:00",
  });
  expect(spanTonight("2026-10-24", new Date("2026-10-24T23:31:00Z"))).toEqual({
    starts_on: "2026-10-25T00:00",
    ends_on: "2026-10-25T02:00",
  });
  expect(spanTonight("2026-10-24", null).starts_on).toBe("2026-10-24T21:00");
});

it("gives a new program the first letter that none has", () => {
  const records = new Records(["A", "C"].map((letter) => ({ table: "programs", id: letter, letter })));
  expect(beginning("programs", "new", records, "n")).toEqual({ table: "programs", id: "n", letter: "B" });
});
