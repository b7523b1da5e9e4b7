/** What ran against the plan: as planned, late, cut short, not at all; and what nobody told of. */

import { expect, it } from "vitest";
import type { NightSheet, Run } from "../night/sheet";
import { SiteDocument } from "../site/document";
import { openingsBy, ranOf } from "./ran";
import type { Entry, Said } from "./shapes";

const DOCUMENT = new SiteDocument({
  format: 1,
  records: [
    { table: "supplies", id: "town", name: "Town" },
    { table: "supplies", id: "north", name: "North", fed_by: "town" },
    { table: "stations", id: "s1", number: "1", name: "Bench", supply: "north", controller: "cab" },
    { table: "stations", id: "s2", number: "2", name: "Oak", supply: "north", controller: "cab" },
    { table: "stations", id: "s3", number: "3", name: "Pine", supply: "north", controller: "other" },
  ],
});

const run = (station: string, start: number, end: number) =>
  ({
    turn: `t-${station}`,
    station,
    supply: "north",
    controller: station === "s3" ? "other" : "cab",
    cycle: 1,
    start,
    end,
  }) as Run;
const sheet = (...runs: Run[]) => ({ starts: 0, ends: 86_400, runs }) as unknown as NightSheet;
let number = 0;
const told = (kind: Said["kind"], at: number, more: Partial<Said> = {}): Entry => {
  number += 1;
  return { kind, at, id: `entry-${number}`, number, arrived_at: at, by: "reporter:x", ...more };
};
const of = (entries: Entry[], runs: Run[], now = 40_000) =>
  [...ranOf(sheet(...runs), DOCUMENT, entries, now).values()].map(({ run: { station }, how, why, spans }) => ({
    station,
    how,
    why,
    spans: spans.map(({ start, end }) => [start, end]),
  }));

it("a run whose valve opened and closed in time ran as planned", () => {
  const entries = [told("opened", 1010, { station: "s1" }), told("closed", 2000, { station: "s1" })];
  expect(of(entries, [run("s1", 1000, 2000)])).toEqual([
    { station: "s1", how: "as_planned", why: null, spans: [[1010, 2000]] },
  ]);
});

it("one whose power was lost ran for less, and says why", () => {
  const entries = [told("opened", 1000, { station: "s1" }), told("power_lost", 1400, { controller: "cab" })];
  expect(of(entries, [run("s1", 1000, 2000)])).toEqual([
    { station: "s1", how: "otherwise", why: "power", spans: [[1000, 1400]] },
  ]);
});

it("one that opened late says what held it", () => {
  const entries = [
    told("stopped", 500, { text: "Rain" }),
    told("lifted", 1500),
    told("opened", 1520, { station: "s1" }),
    told("closed", 2500, { station: "s1" }),
  ];
  expect(of(entries, [run("s1", 1000, 2000)])).toEqual([
    { station: "s1", how: "otherwise", why: "stopped", spans: [[1520, 2500]] },
  ]);
});

it("one whose controller was heard while its valve stayed shut did not run", () => {
  const entries = [told("shut", 900, { supply: "town" }), told("opened", 1200, { station: "s2" })];
  expect(of(entries, [run("s1", 1000, 2000)])).toEqual([{ station: "s1", how: "not", why: "shut", spans: [] }]);
});

it("one of which nothing was told is not judged", () => {
  expect(of([told("opened", 1200, { station: "s2" })], [run("s3", 1000, 2000)])).toEqual([]);
  expect(of([], [run("s1", 1000, 2000)])).toEqual([]);
});

it("one that is under way runs as planned so far, and one to come is not looked at", () => {
  const entries = [told("opened", 1000, { station: "s1" })];
  expect(of(entries, [run("s1", 1000, 2000), run("s2", 3000, 4000)], 1500)).toEqual([
    { station: "s1", how: "as_planned", why: null, spans: [[1000, null]] },
  ]);
});

it("a run that begins just now keeps its opening from the one before it", () => {
  const entries = [
    told("opened", 1000, { station: "s1" }),
    told("closed", 2000, { station: "s1" }),
    told("opened", 2600, { station: "s1" }),
  ];
  const runs = [run("s1", 1000, 2000), { ...run("s1", 2600, 3600), cycle: 2 }];
  expect(of(entries, runs, 2600).map(({ how, spans }) => [how, spans])).toEqual([["as_planned", [[1000, 2000]]]]);
});

it("a valve that is open belongs to the run under way, not to a later one", () => {
  const runs = [run("s1", 1000, 2000), { ...run("s1", 5000, 6000), cycle: 2 }];
  expect(of([told("opened", 1000, { station: "s1" })], runs, 1500).map(({ how, spans }) => [how, spans])).toEqual([
    ["as_planned", [[1000, null]]],
  ]);
});

it("an opening belongs to the run it overlaps, or to the nearest within half an hour", () => {
  const runs = [run("s1", 1000, 2000), { ...run("s1", 5000, 6000), cycle: 2 }];
  const late = [told("opened", 4000, { station: "s1" }), told("closed", 4900, { station: "s1" })];
  expect(of(late, runs).map(({ how, spans }) => [how, spans.length])).toEqual([["otherwise", 1]]);
  const far = [told("opened", 9000, { station: "s1" }), told("closed", 9500, { station: "s1" })];
  expect(of(far, runs)).toEqual([]);
});

it("a loss of power closes the valves of its controller alone, and that of the site all of them", () => {
  const open = () => [told("opened", 10, { station: "s1" }), told("opened", 10, { station: "s3" })];
  const ends = (entries: Entry[]) => ["s1", "s3"].map((id) => openingsBy(DOCUMENT, entries).get(id)?.[0]?.end);
  expect(ends([...open(), told("power_lost", 20, { controller: "cab" })])).toEqual([20, null]);
  expect(ends([...open(), told("power_lost", 20)])).toEqual([20, 20]);
});
