/** What of the journal is shown, and under which night. */

import { expect, it } from "vitest";
import { byNight, isLooked, type Looked, nightOf, wholeSince } from "./choosing";
import type { Happened } from "./queries";
import type { Entry } from "./shapes";

const AT = Date.UTC(2026, 6, 10, 22) / 1000;
const wallOf = (instant: number) => new Date(instant * 1000);

function an(entry: Partial<Happened>): Happened {
  return { id: "entry-01", at: AT, kind: "note", by: "person:ines", row: null, text: "", ...entry };
}

const looked = (change: Partial<Looked> = {}): Looked => ({ sort: "calm", about: null, text: "", ...change });
const text = (entry: Happened) => entry.text ?? "";

it("what valves and meters do by themselves is shown where somebody looks for it", () => {
  for (const kind of ["opened", "closed", "flow", "count", "alive"] as const) {
    expect(isLooked(an({ kind }), looked(), text)).toBe(false);
    expect(isLooked(an({ kind }), looked({ sort: "all" }), text)).toBe(true);
  }
  expect(isLooked(an({ kind: "power_lost" }), looked(), text)).toBe(true);
  expect(isLooked(an({ kind: "opened" }), looked({ sort: "valves" }), text)).toBe(true);
});

it("a place shows what is about it alone", () => {
  const about = { table: "station", id: "n14" } as const;
  expect(isLooked(an({ station: "n14" }), looked({ about }), text)).toBe(true);
  expect(isLooked(an({ station: "n15" }), looked({ about }), text)).toBe(false);
  expect(isLooked(an({ supply: "n14" }), looked({ about }), text)).toBe(false);
});

it("words are found in whatever case and with whatever marks", () => {
  expect(isLooked(an({ text: "Água no canteiro" }), looked({ text: " agua " }), text)).toBe(true);
  expect(isLooked(an({ text: "Dry" }), looked({ text: "wet" }), text)).toBe(false);
});

it("a night lasts from noon to noon on the site's wall", () => {
  expect(nightOf(new Date("2026-07-11T11:59:59Z"))).toBe("2026-07-10");
  expect(nightOf(new Date("2026-07-11T12:00:00Z"))).toBe("2026-07-11");
  const items = [an({ at: AT + 3600 }), an({ at: AT }), an({ at: AT - 12 * 3600 })];
  expect(byNight(items, wallOf).map(({ night, items }) => [night, items.length])).toEqual([
    ["2026-07-10", 2],
    ["2026-07-09", 1],
  ]);
});

it("the phone knows from when on it holds all", () => {
  const entries = [{ arrived_at: AT - 3600 }, { arrived_at: AT }] as Entry[];
  expect(wholeSince(entries, AT, 14, 100)).toBe(AT - 14 * 24 * 3600);
  expect(wholeSince(entries, AT, 14, 2)).toBe(AT - 3600 + 900);
});
