import { expect, it } from "vitest";
import { changesOf } from "./changes";
import { copyOf } from "./copying";
import { Records } from "./records";
import { usualRun } from "./usual-run";

const RECORDS = [
  { table: "programs", id: "p", name: "Palm walk", letter: "W", days: "odd" },
  { table: "turns", id: "t1", program: "p", station: "a", position: 10, run_s: 900 },
  { table: "turns", id: "t2", program: "p", station: "b", position: 20, run_s: 900 },
  { table: "stations", id: "a", number: "N1", name: "Gate", supply: "m", flow_lpm: 10 },
];

function ids() {
  let made = 0;
  return () => {
    made += 1;
    return `new${made}`;
  };
}

it("copies a program with its turns, under ids of their own, and leaves its letter to the reader", () => {
  const records = new Records(RECORDS);
  const changes = changesOf({ format: 1, records: RECORDS }, copyOf(records, RECORDS[0] as never, ids()));
  expect(changes.map((change) => [change.kind, change.table, change.record])).toEqual([
    ["add", "programs", "new1"],
    ["add", "turns", "new2"],
    ["add", "turns", "new3"],
  ]);
  expect(changes[0]).toMatchObject({ now: { name: "Palm walk, copy", days: "odd" } });
  expect(changes[0]).not.toMatchObject({ now: { letter: "W" } });
  expect(changes[1]).toMatchObject({ now: { program: "new1", station: "a", run_s: 900 } });
});

it("copies a station without its number, which no two share", () => {
  const draft = copyOf(new Records(RECORDS), RECORDS[3] as never, ids());
  expect([...draft.values()][0]).toMatchObject({ record: { number: "", name: "Gate, copy", supply: "m" } });
});

it("begins a new turn as most turns of its program run", () => {
  const turn = (run_s: number, cycles?: number) => ({ table: "turns", id: `${run_s}`, run_s, cycles });
  expect(usualRun([turn(600), turn(900, 2), turn(900, 2)])).toEqual({ run_s: 900, cycles: 2, soak_s: 0 });
  expect(usualRun([])).toEqual({ run_s: 600, cycles: 1, soak_s: 0 });
});
