import { describe, expect, it } from "vitest";
import { changesOf } from "./changes";
import { EMPTY } from "./draft";
import { Records } from "./records";
import { referrersOf, removalOf, withRemoval } from "./references";
import { supplyTree } from "./supply-tree";

const RECORDS = [
  { table: "supplies", id: "town", name: "Town" },
  { table: "supplies", id: "main", name: "Main North", fed_by: "town" },
  { table: "supplies", id: "well", name: "Old well" },
  { table: "controllers", id: "cab", name: "Cabinet" },
  { table: "stations", id: "a", number: "1", name: "A", supply: "main", controller: "cab" },
  { table: "stations", id: "b", number: "2", name: "B", supply: "main" },
  { table: "programs", id: "p", name: "P" },
  { table: "turns", id: "ta", program: "p", station: "a", run_s: 60 },
  { table: "apart", id: "ab", station: "b", other: "a" },
  { table: "windows", id: "wa", station: "a", opens: "21:00", closes: "05:00" },
];
const records = new Records(RECORDS);
const kinds = (table: string, id: string) =>
  changesOf({ format: 1, records: RECORDS }, withRemoval(EMPTY, records, table, id)).map((change) => [
    change.kind,
    change.record,
  ]);

describe("removing a record", () => {
  it("takes along what is nothing without it", () => {
    const changes = kinds("stations", "a");
    expect(changes).toHaveLength(4);
    expect(new Set(changes.map(([, id]) => id))).toEqual(new Set(["ta", "ab", "wa", "a"]));
  });

  it("lets go of what can be without it", () => {
    expect(kinds("controllers", "cab")).toEqual([
      ["set", "a"],
      ["remove", "cab"],
    ]);
  });

  it("is not possible while stations or mains hang on a supply", () => {
    expect(removalOf(records, "supplies", "main").stays.map(({ record }) => record.id)).toEqual(["a", "b"]);
    expect(removalOf(records, "supplies", "town").stays.map(({ record }) => record.id)).toEqual(["main"]);
    expect(removalOf(records, "supplies", "well").stays).toEqual([]);
  });

  it("knows whatever points to it", () => {
    expect(referrersOf(records, "stations", "a").map(({ record, field }) => [record.id, field])).toEqual([
      ["wa", "station"],
      ["ab", "other"],
      ["ta", "station"],
    ]);
  });
});

describe("the tree of supplies", () => {
  it("puts each main below what feeds it, with its stations", () => {
    expect(supplyTree(records).map(({ supply, depth, stations }) => [supply.id, depth, stations])).toEqual([
      ["town", 0, 0],
      ["main", 1, 2],
      ["well", 0, 0],
    ]);
  });

  it("shows a ring instead of hiding it", () => {
    const ring = new Records([
      { table: "supplies", id: "x", fed_by: "y" },
      { table: "supplies", id: "y", fed_by: "x" },
    ]);
    expect(supplyTree(ring).map(({ supply }) => supply.id)).toEqual(["x", "y"]);
  });
});
