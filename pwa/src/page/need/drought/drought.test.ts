import { describe, expect, it } from "vitest";
import { SiteDocument, type SiteRecord } from "../../site/document";
import { changesTo, compared, droughtOn, droughtsOf, holdsOn, prioritiesOf, settingOf } from "./drought";

const zone = (id: string, priority?: number): SiteRecord => ({ table: "hydrozones", id, name: id, priority });
const rule = (id: string, priority: number, share_pct: number, starts: string, ends?: string): SiteRecord => ({
  table: "droughts",
  id,
  priority,
  share_pct,
  starts,
  ...(ends ? { ends } : {}),
});
const site = (...records: SiteRecord[]) => new SiteDocument({ format: 1, records });
const idOf = (priority: number) => `new-${priority}`;

describe("droughts of a document", () => {
  it("gather rules of one span, and the later id wins", () => {
    const found = droughtsOf(
      site(
        rule("b", 5, 50, "2026-07-01"),
        rule("a", 5, 80, "2026-07-01"),
        rule("c", 2, 90, "2026-05-01", "2026-05-31"),
      ),
    );
    expect(found.map(({ starts, ends, rules }) => [starts, ends, [...rules.values()].map((one) => one.id)])).toEqual([
      ["2026-05-01", "2026-05-31", ["c"]],
      ["2026-07-01", "", ["b"]],
    ]);
  });

  it("hold from their first night to their last, and the one to come is known too", () => {
    const document = site(rule("a", 5, 80, "2026-05-01", "2026-05-31"), rule("b", 5, 50, "2026-07-01"));
    expect(droughtOn(document, "2026-05-31")?.starts).toBe("2026-05-01");
    expect(droughtOn(document, "2026-06-01")?.starts).toBe("2026-07-01");
    expect(holdsOn({ starts: "2026-07-01", ends: "" }, "2026-06-30")).toBe(false);
    expect(holdsOn({ starts: "2026-05-01", ends: "2026-05-31" }, "2026-05-31")).toBe(true);
    expect(droughtOn(site(rule("a", 5, 80, "2026-05-01", "2026-05-31")), "2026-06-01")).toBeNull();
  });

  it("speak of the plantings' own priorities, 5 where none is stated", () => {
    expect([...prioritiesOf(site(zone("dune", 8), zone("lawn"), zone("beds", 5)))]).toEqual([
      [5, ["lawn", "beds"]],
      [8, ["dune"]],
    ]);
  });
});

describe("setting a drought", () => {
  it("adds a rule for each priority that gets less than everything", () => {
    const set = { starts: "2026-07-01", ends: "", shares: { 5: 60, 8: 0, 2: 100 } };
    expect(changesTo(null, set, idOf)).toEqual([
      { kind: "add", table: "droughts", record: "new-5", now: { starts: "2026-07-01", priority: 5, share_pct: 60 } },
      { kind: "add", table: "droughts", record: "new-8", now: { starts: "2026-07-01", priority: 8, share_pct: 0 } },
    ]);
  });

  it("changes what differs alone, removes what gets everything again, and nothing for nothing", () => {
    const drought = droughtOn(site(rule("a", 5, 80, "2026-07-01"), rule("b", 8, 0, "2026-07-01")), "2026-07-01");
    const set = settingOf(drought, "2026-07-04");
    expect(set).toEqual({ starts: "2026-07-01", ends: "", shares: { 5: 80, 8: 0 } });
    expect(changesTo(drought, set, idOf)).toEqual([]);
    expect(changesTo(drought, { ...set, ends: "2026-08-01", shares: { 5: 70, 8: 100 } }, idOf)).toEqual([
      { kind: "set", table: "droughts", record: "a", field: "ends", now: "2026-08-01" },
      { kind: "set", table: "droughts", record: "a", field: "share_pct", now: 70 },
      { kind: "remove", table: "droughts", record: "b" },
    ]);
  });
});

it("sets depths before and after side by side where both are known", () => {
  const needed = (lawn: number | null, dune: number | null) => ({
    night: "2026-07-01",
    hydrozones: [
      { hydrozone: "lawn", tonight_mm: lawn, share_pct: 100 },
      { hydrozone: "dune", tonight_mm: dune, share_pct: 100 },
    ],
  });
  expect(compared(needed(5, null), needed(3, 2))).toEqual([{ hydrozone: "lawn", before: 5, after: 3 }]);
});
