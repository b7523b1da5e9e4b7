import { describe, expect, it } from "vitest";
import type { Budget } from "../../line/api";
import { barsOf, costOf, monthsOf, stepsOf, topOf, zonesOf } from "./year";

const line = (month: string, hydrozone: string, allowed_l: number, planned_l: number, used_l: number) => ({
  month,
  hydrozone,
  allowed_l,
  planned_l,
  used_l,
  left_l: allowed_l - used_l,
});
const budget: Budget = {
  year: 2026,
  currency: "EUR",
  caution: "",
  lines: [
    line("2026-06", "lawn", 600, 700, 500),
    line("2026-06", "dune", 200, 100, 400),
    line("2026-07", "lawn", 800, 900, 0),
  ],
  costs: [
    {
      month: "2026-06",
      used_l: 900,
      amount: "4.10",
      steps: [
        { volume_l: 500, price: "1.0", amount: "0.5" },
        { volume_l: 400, price: "4.0", amount: "1.6" },
      ],
      planned_l: 800,
      planned_amount: "3.70",
    },
    { month: "2026-07", used_l: 0, amount: null, steps: [], planned_l: 900, planned_amount: "4.10" },
  ],
};

describe("a year's water", () => {
  const months = monthsOf(budget);

  it("adds up by month and by hydrozone", () => {
    expect(months.map(({ month, allowed_l, planned_l, used_l }) => [month, allowed_l, planned_l, used_l])).toEqual([
      ["2026-06", 800, 800, 900],
      ["2026-07", 800, 900, 0],
    ]);
    expect(zonesOf(budget).map(({ hydrozone, used_l }) => [hydrozone, used_l])).toEqual([
      ["lawn", 500],
      ["dune", 400],
    ]);
  });

  it("costs what its months cost, step by step, and nothing where no price is stated", () => {
    expect(costOf(months)?.used).toBeCloseTo(4.1);
    expect(costOf(months)?.planned).toBeCloseTo(7.8);
    expect(stepsOf([...months].reverse()).map(({ price, volume_l }) => [price, volume_l])).toEqual([
      ["1.0", 500],
      ["4.0", 400],
    ]);
    expect(costOf(monthsOf({ ...budget, costs: [] }))).toBeNull();
  });

  it("is drawn against its greatest month, what is above the allowance apart", () => {
    expect(topOf(months)).toBe(900);
    const [june, july] = barsOf(months);
    expect(june?.within).toBeCloseTo((100 * 800) / 900);
    expect(june?.above).toBeCloseTo((100 * 100) / 900);
    expect([july?.planned, july?.within, july?.above]).toEqual([100, 0, 0]);
  });

  it("has nothing above an allowance that nobody states, and no bar of nothing", () => {
    const free = barsOf(monthsOf({ ...budget, lines: [line("2026-06", "lawn", 0, 0, 300)] }));
    expect(free.map(({ within, above }) => [within, above])).toEqual([[100, 0]]);
    expect(barsOf(monthsOf({ ...budget, lines: [line("2026-06", "lawn", 0, 0, 0)] }))[0]?.within).toBe(0);
  });
});
