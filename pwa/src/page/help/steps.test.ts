import { expect, it } from "vitest";
import { SiteDocument } from "../site/document";
import { nextStep, stepsOf } from "./steps";

const site = (...tables: string[]) =>
  new SiteDocument({ format: 1, records: tables.map((table, index) => ({ table, id: `r${index}` })) });

it("begins with the supplies on an empty site, and while no site is there", () => {
  expect(nextStep(stepsOf(null))).toBe("supplies");
  expect(nextStep(stepsOf(site("site")))).toBe("supplies");
});

it("ticks off what the document has, and counts it", () => {
  const steps = stepsOf(site("supplies", "supplies", "stations"));
  expect(steps.filter(({ done }) => done).map(({ table, count }) => [table, count])).toEqual([
    ["supplies", 2],
    ["stations", 1],
  ]);
  expect(nextStep(steps)).toBe("controllers");
});

it("has nothing left to do once every table has a record", () => {
  const tables = stepsOf(null).map(({ table }) => table);
  expect(nextStep(stepsOf(site(...tables)))).toBeNull();
});
