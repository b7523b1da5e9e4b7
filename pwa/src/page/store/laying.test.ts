/** What the screen shows: the copy with edits over it, in the document's order. */

import { expect, it } from "vitest";
import { inOrder, type Laid, laidOver } from "./laying";

const stations = (names: Record<string, string>) =>
  new Map(
    Object.entries(names).map(([id, name], order) => [
      `stations/${id}`,
      { record: { table: "stations", id, name }, versions: {}, order },
    ]),
  );
const edit = (given: Partial<Laid>): Laid => ({
  kind: "set",
  table: "stations",
  record: "a",
  field: null,
  now: null,
  ...given,
});

it("null takes a field back to its default, which is left out", () => {
  const shown = laidOver(stations({ a: "Rose bed" }), new Map(), [
    edit({ field: "notes", now: "x" }),
    edit({ field: "name" }),
  ]);
  expect(shown.get("stations/a")).toEqual({ table: "stations", id: "a", notes: "x" });
});

it("a group's fields that an edit does not name are at their defaults", () => {
  const turn = { table: "turns", id: "t", run_s: 600, cycles: 3, soak_s: 60, position: 2 };
  const shown = laidOver(new Map([["turns/t", { record: turn }]]), new Map(), [
    edit({ table: "turns", record: "t", field: "run", now: { run_s: 900 } }),
  ]);
  expect(shown.get("turns/t")).toEqual({ table: "turns", id: "t", run_s: 900, position: 2 });
});

it("what is brought back is shown as the phone last had it", () => {
  const last = { table: "stations", id: "b", name: "Long lawn" };
  const back = edit({ kind: "restore", record: "b" });
  expect(laidOver(new Map(), new Map([["stations/b", { last }]]), [back]).get("stations/b")).toEqual(last);
  expect(laidOver(new Map(), new Map([["stations/b", { last: null }]]), [back]).size).toBe(0);
});

it("settling a removal removes, or brings back", () => {
  const settle = (now: boolean) => edit({ kind: "settle", field: "removed", now });
  expect(laidOver(stations({ a: "Rose bed" }), new Map(), [settle(true)]).size).toBe(0);
  expect(laidOver(stations({ a: "Rose bed" }), new Map(), [settle(true), settle(false)]).size).toBe(1);
});

it("an edit of a record that is not there shows nothing, and nothing that was given is changed", () => {
  const given = stations({ a: "Rose bed" });
  laidOver(given, new Map(), [edit({ field: "name", now: "Other" }), edit({ record: "zz", field: "name", now: "x" })]);
  expect(given).toEqual(stations({ a: "Rose bed" }));
});

it("records stand in the document's order, table by table, what was added here at the end of its table", () => {
  const records = new Map([
    ["turns/t", { record: { table: "turns", id: "t" }, versions: {}, order: 1 }],
    ["stations/b", { record: { table: "stations", id: "b" }, versions: {}, order: 9 }],
    ["stations/a", { record: { table: "stations", id: "a" }, versions: {}, order: 4 }],
    ["site/s", { record: { table: "site", id: "s" }, versions: {}, order: 0 }],
  ]);
  const shown = laidOver(records, new Map(), [edit({ kind: "add", record: "new", now: { name: "Orchard" } })]);
  expect(inOrder({ records }, shown).map((record) => record.id)).toEqual(["s", "a", "b", "new", "t"]);
});
