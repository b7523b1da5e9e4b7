/** Who refers to a record, and what has to go, or be let go of, with it when it is removed. */

import type { SiteRecord } from "../site/document";
import { type Draft, keyOf, without, withValues } from "./draft";
import { fieldsOf, TABLES, type Table } from "./fields";
import { type Records, textOf } from "./records";

export interface Referrer {
  record: SiteRecord;
  field: string;
}

/** Table → its fields that point to records of `target`. */
function pointers(target: string): [Table, string][] {
  return TABLES.flatMap((table) =>
    Object.entries(fieldsOf(table))
      .filter(([, field]) => field.kind === "ref" && field.table === target)
      .map(([name]): [Table, string] => [table, name]),
  );
}

/** Every record that points to this one, in the order of the tables. */
export function referrersOf(records: Records, table: string, id: string): Referrer[] {
  return pointers(table).flatMap(([from, field]) =>
    records
      .of(from)
      .filter((record) => textOf(record, field) === id)
      .map((record) => ({ record, field })),
  );
}

/** What removing a record means for the others. `stays` hang on it and would have nothing left: it cannot go yet. */
export interface Removal {
  stays: Referrer[];
  goes: SiteRecord[];
  letGo: Referrer[];
}

/** Tables whose records are nothing without what they speak of; a scope let go of would widen to the whole site. */
const PARTS: readonly string[] = ["turns", "apart", "asked", "windows", "closures", "cans", "repairs"];

export function removalOf(records: Records, table: string, id: string): Removal {
  const referrers = referrersOf(records, table, id);
  const goes = new Map(
    referrers
      .filter(({ record }) => PARTS.includes(record.table))
      .map(({ record }) => [keyOf(record.table, record.id), record]),
  );
  const others = referrers.filter(({ record }) => !PARTS.includes(record.table));
  return {
    stays: others.filter(({ record, field }) => fieldsOf(record.table)[field]?.required || field === "fed_by"),
    goes: [...goes.values()],
    letGo: others.filter(({ record, field }) => !fieldsOf(record.table)[field]?.required && field !== "fed_by"),
  };
}

/** The draft in which the record is gone, and with it whatever cannot be without it. */
export function withRemoval(draft: Draft, records: Records, table: string, id: string): Draft {
  const { goes, letGo } = removalOf(records, table, id);
  const freed = letGo.reduce(
    (next, { record, field }) => withValues(next, record.table, record.id, { [field]: null }),
    draft,
  );
  const emptied = goes.reduce((next, record) => without(next, record.table, record.id), freed);
  return without(emptied, table, id);
}
