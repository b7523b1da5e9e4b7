import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { aNight, aRun, NOON } from "../night/builders";
import type { NightSheet, Shortfall } from "../night/sheet";
import { compare, finishLater, moreShort, moreVolume, moveRange, nothingChanges } from "./compare";

const at = (minutes: number) => NOON + minutes * 60;
const run = (turn: string, from: number, to: number, cycle = 1) =>
  aRun({ turn, station: turn, cycle, start: at(from), end: at(to) });
const short = (turn: string, volume_l: number): Shortfall => ({
  turn,
  station: turn,
  program: "p",
  supply: "source",
  cycles: 1,
  run_s: 600,
  volume_l,
  why: { code: "short.supply_full", params: {} },
});
const night = (runs: ReturnType<typeof run>[], more: Partial<NightSheet> = {}): NightSheet => ({
  ...aNight(runs),
  ...more,
});

describe("two sheets of one night", () => {
  const before = night([run("a", 0, 48), run("b", 50, 60), run("c", 60, 70), run("d", 80, 90)], {
    shortfalls: [short("x", 900), short("y", 500)],
    notices: [{ code: "notice.site_off", params: {} }],
    volume_l: 1000,
  });
  const after = night([run("a", 0, 60), run("b", 62, 72), run("d", 80.5, 90.5), run("e", 95, 99)], {
    shortfalls: [short("y", 700), short("c", 400)],
    notices: [
      { code: "notice.site_off", params: {} },
      { code: "notice.empty_program", params: { program: "p" } },
    ],
    volume_l: 1300,
  });
  const found = compare(before, after);

  it("tell what moves, and leave out what moves by less than a minute", () => {
    expect(found.moved.map(({ key, from, to }) => [key, from, to])).toEqual([["b.1", at(50), at(62)]]);
    expect(found.resized.map(({ key, from, to }) => [key, from, to])).toEqual([["a.1", at(48), at(60)]]);
    expect(moveRange(found.moved)).toEqual({ least: 720, most: 720 });
  });

  it("tell what comes and what goes", () => {
    expect([found.fresh.map((one) => one.turn), found.gone.map((one) => one.turn)]).toEqual([["e"], ["c"]]);
    expect(found.short.fresh.map((item) => item.turn)).toEqual(["c"]);
    expect(found.short.gone.map((item) => item.turn)).toEqual(["x"]);
    expect(found.short.changed.map((pair) => [pair.before.volume_l, pair.after.volume_l])).toEqual([[500, 700]]);
    expect(found.notices.map((notice) => notice.code)).toEqual(["notice.empty_program"]);
  });

  it("tell when the night ends, and the water", () => {
    expect(finishLater(found)).toBe(9 * 60);
    expect([moreVolume(found), moreShort(found)]).toEqual([300, -300]);
  });

  it("have no finish to compare where one has none", () => {
    expect(finishLater(compare(night([]), before))).toBeNull();
  });
});

const runs = fc.uniqueArray(
  fc.record({ turn: fc.constantFrom("a", "b", "c", "d"), cycle: fc.integer({ min: 1, max: 3 }), from: fc.nat(600) }),
  { selector: ({ turn, cycle }) => `${turn}.${cycle}` },
);
const sheetOf = (given: { turn: string; cycle: number; from: number }[]) =>
  night(given.map(({ turn, cycle, from }) => run(turn, from, from + 10, cycle)));

it("finds nothing between a sheet and itself, and the same both ways between two", () => {
  fc.assert(
    fc.property(runs, runs, (one, other) => {
      const [a, b] = [sheetOf(one), sheetOf(other)];
      expect(nothingChanges(compare(a, a))).toBe(true);
      const [there, back] = [compare(a, b), compare(b, a)];
      expect(there.moved.length).toBe(back.moved.length);
      expect(there.fresh.length).toBe(back.gone.length);
    }),
  );
});
