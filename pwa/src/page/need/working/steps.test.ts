import { expect, it } from "vitest";
import english from "../../../../generated/catalogues/en.json";
import type { Figure } from "../told/shapes";
import { STEPS, stepsOf } from "./steps";

const figure = (key: string): Figure => ({ key, value: 1, unit: "mm", inputs: [], source: "", rung: "", row: "" });

it("has a step for every figure that the engine names, and no figure in two", () => {
  const named = Object.keys(english.sayings)
    .filter((code) => code.startsWith("figure."))
    .map((code) => code.slice("figure.".length));
  expect(named.length).toBeGreaterThan(40);
  expect(Object.values(STEPS).flat().sort()).toEqual(named.sort());
});

it("keeps the order of the work in each step, and loses no figure, not even one of a newer engine", () => {
  const keys = ["reference", "rain", "taken", "moonlight", "run", "depletion"];
  const steps = stepsOf({ figures: keys.map(figure) });
  expect(steps.map(({ name, figures }) => [name, figures.map(({ key }) => key)])).toEqual([
    ["plants", ["reference", "taken"]],
    ["rain", ["rain"]],
    ["soil", ["depletion"]],
    ["depth", []],
    ["minutes", ["moonlight", "run"]],
  ]);
});
