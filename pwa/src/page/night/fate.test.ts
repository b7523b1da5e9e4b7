import { describe, expect, it } from "vitest";
import { aNight, aRun, aSite, HOUR, lisbonClockBack, NOON } from "./builders";
import { fateOf, nextNightOf } from "./fate";

const station = (id: string) => ({ table: "stations", id, number: id, name: "", part: "" });
const site = aSite(
  station("wet"),
  station("short"),
  station("shut"),
  station("resting"),
  station("idle"),
  ...["wet", "short", "shut", "resting"].map((id) => ({ table: "turns", id: `t-${id}`, program: "p", station: id })),
);
const shortfall = (id: string, code: string) => ({
  turn: `t-${id}`,
  station: id,
  program: "p",
  supply: "s",
  cycles: 1,
  run_s: 60,
  volume_l: 60,
  why: { code, params: {} },
});
const night = aNight([
  aRun({ station: "wet", start: NOON, end: NOON + HOUR }),
  aRun({ station: "wet", start: NOON + 2 * HOUR, end: NOON + 3 * HOUR, cycle: 2 }),
]);
night.shortfalls = [shortfall("short", "short.supply_full"), shortfall("shut", "short.closed_all_night")];
const kind = (id: string, hours: number | null) =>
  fateOf(night, site, id, hours === null ? null : NOON + hours * HOUR).kind;

describe("what a night does to a station", () => {
  it("tells open, coming and done apart as the night goes on", () => {
    expect([null, 0.5, 1, 2.5, 3].map((hours) => kind("wet", hours))).toEqual([
      "coming",
      "open",
      "coming",
      "open",
      "done",
    ]);
  });

  it("tells why there is none: short, closed, not due, in no program", () => {
    expect(["short", "shut", "resting", "idle"].map((id) => kind(id, 1))).toEqual([
      "short",
      "closed",
      "not_due",
      "no_program",
    ]);
  });

  it("looks for its next night among those that are known, in their order", () => {
    const clock = lisbonClockBack();
    const later = aNight([aRun({ station: "resting", start: NOON + 50 * HOUR })]);
    const known = new Map([
      ["2026-10-27", { sheet: later, clock }],
      ["2026-10-25", { sheet: aNight([]), clock }],
      ["2026-10-26", { sheet: later, clock }],
    ]);
    expect(nextNightOf(known, "resting", "2026-10-24")?.night).toBe("2026-10-26");
    expect(nextNightOf(known, "resting", "2026-10-27")).toBeNull();
    expect(nextNightOf(known, "idle", "2026-10-24")).toBeNull();
  });
});
