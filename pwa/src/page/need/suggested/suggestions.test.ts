import { describe, expect, it } from "vitest";
import { SiteDocument } from "../../site/document";
import {
  changesFor,
  type Limits,
  limitChanges,
  limitsOf,
  needIn,
  rightAsTheyStand,
  type Suggestion,
  type Suggestions,
  standing,
  withoutByReason,
} from "./suggestions";

const program = (id: string, fields: object = {}) => ({ table: "programs", id, name: id, ...fields });
const turn = (of: string, mode?: string) => ({ table: "turns", id: `t-${of}`, program: of, ...(mode ? { mode } : {}) });
const suggestion = (of: string, from_pct: number, to_pct: number): Suggestion => ({
  program: of,
  from_pct,
  to_pct,
  by_itself: false,
  message: { code: "seasonal.suggested", params: { program: of, from_pct, to_pct, recent_mm: 2.7, peak_mm: 6.8 } },
});

const document = new SiteDocument({
  format: 1,
  records: [
    program("lawns", { seasonal_pct: 80, seasonal_least_pct: 30 }),
    program("beds"),
    program("pots"),
    program("trees"),
    ...["lawns", "beds", "pots"].map((of) => turn(of)),
    turn("trees", "need"),
  ],
});
const found: Suggestions = {
  night: "2026-10-24",
  suggestions: [suggestion("lawns", 80, 40), suggestion("gone", 100, 40)],
  messages: [{ code: "seasonal.no_recent", params: { program: "pots" } }],
};

describe("suggested percentages", () => {
  it("speak of the percentage that stands, and of programs that are there", () => {
    expect(standing(found, document).map((one) => one.program)).toEqual(["lawns"]);
    const set = new SiteDocument({ format: 1, records: [program("lawns", { seasonal_pct: 70 })] });
    expect(standing(found, set)).toEqual([]);
  });

  it("become edits of their programs, and of nothing else", () => {
    expect(changesFor(standing(found, document))).toEqual([
      { kind: "set", table: "programs", record: "lawns", field: "seasonal_pct", now: 40 },
    ]);
  });

  it("tell the need that they follow from, or nothing", () => {
    expect(needIn(found)).toEqual({ recent_mm: 2.7, peak_mm: 6.8 });
    expect(needIn({ ...found, suggestions: [] })).toBeNull();
  });

  it("leave programs that are right, and those of which nothing is known, each with its reason", () => {
    expect(rightAsTheyStand(found, document)).toEqual(["beds"]);
    expect([...withoutByReason(found)].map(([code, { programs }]) => [code, programs])).toEqual([
      ["seasonal.no_recent", ["pots"]],
    ]);
  });
});

describe("a program's limits", () => {
  const usual: Limits = { seasonal_least_pct: 0, seasonal_most_pct: 150, seasonal_by_itself_pct: 0 };

  it("are the document's own where the program says nothing", () => {
    expect(limitsOf(document, "beds")).toEqual(usual);
    expect(limitsOf(document, "lawns")).toEqual({ ...usual, seasonal_least_pct: 30 });
  });

  it("change by what differs alone, and the usual is stored as nothing", () => {
    const was = limitsOf(document, "lawns");
    expect(limitChanges("lawns", was, was)).toEqual([]);
    expect(limitChanges("lawns", was, { ...usual, seasonal_by_itself_pct: 10 })).toEqual([
      { kind: "set", table: "programs", record: "lawns", field: "seasonal_least_pct", now: null },
      { kind: "set", table: "programs", record: "lawns", field: "seasonal_by_itself_pct", now: 10 },
    ]);
  });
});
