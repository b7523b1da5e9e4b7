import { expect, it } from "vitest";
import type { Edit, Waiting } from "../store/shapes";
import { cautionsFor, waterOf } from "./cautions";
import { stateOf } from "./record-state";
import { Records } from "./records";
import { scopeWords } from "./scope";

const edit = (sent: boolean) => ({ table: "programs", record: "p", sent }) as Edit;
const waits = (open: boolean) => ({ tray: "disputed", open, edit: { table: "programs", record: "p" } }) as Waiting;

it("tells how far a record's edits have come; a decision that waits comes first", () => {
  expect(stateOf("programs", "p", [], [])).toBe("in_force");
  expect(stateOf("programs", "p", [edit(false), edit(true)], [])).toBe("saved");
  expect(stateOf("programs", "p", [edit(true)], [])).toBe("sending");
  expect(stateOf("programs", "q", [edit(true)], [waits(true)])).toBe("in_force");
  expect(stateOf("programs", "p", [edit(true)], [waits(true)])).toBe("disputed");
  expect(stateOf("programs", "p", [], [waits(false)])).toBe("in_force");
});

const records = new Records([
  { table: "supplies", id: "lagoon", name: "Lagoon", water: "reclaimed" },
  { table: "supplies", id: "main", name: "Main North", fed_by: "lagoon", water: "town" },
  { table: "stations", id: "s", number: "N1", name: "Gate", supply: "main" },
  { table: "controllers", id: "c", name: "Cabinet" },
]);

it("warns of reclaimed water wherever it flows, of pressure and of cabinets", () => {
  expect(waterOf(records.get("supplies", "main"), records)).toBe("reclaimed");
  const warned = (table: string, id: string) => {
    const record = records.get(table, id);
    return record ? cautionsFor(record, records).length : -1;
  };
  expect([warned("supplies", "main"), warned("stations", "s"), warned("controllers", "c")]).toEqual([2, 1, 1]);
});

it("says what a scope speaks of", () => {
  expect(scopeWords({ table: "windows", id: "w" }, records)).toBe("whole site");
  expect(scopeWords({ table: "windows", id: "w", supply: "main", station: "s" }, records)).toBe(
    "Main North and N1 Gate",
  );
});
