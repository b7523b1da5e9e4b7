import { expect, it } from "vitest";
import { found } from "./choosing";
import { zoneOptions } from "./zones";

const OPTIONS = [
  { value: "1", label: "102 Meadow east, old oak", about: "North meadow" },
  { value: "2", label: "Jardín de los olivos" },
  { value: "3", label: "Oak walk" },
];

it("finds whatever has all the words, whatever their accents, what begins with them first", () => {
  expect(found(OPTIONS, "OAK").map(({ value }) => value)).toEqual(["3", "1"]);
  expect(found(OPTIONS, "jardin olivos").map(({ value }) => value)).toEqual(["2"]);
  expect(found(OPTIONS, "north oak").map(({ value }) => value)).toEqual(["1"]);
  expect(found(OPTIONS, "  ")).toEqual(OPTIONS);
  expect(found(OPTIONS, "palm")).toEqual([]);
});

it("finds a zone by its place, and keeps one the browser does not list", () => {
  expect(found(zoneOptions("Europe/Lisbon"), "buenos aires")[0]?.value).toMatch(/Buenos_Aires$/);
  expect(zoneOptions("Mars/Olympus")[0]?.value).toBe("Mars/Olympus");
});
