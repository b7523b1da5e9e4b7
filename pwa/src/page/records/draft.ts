/** A draft: some records changed, added or removed, over the site's own. Nothing of it is kept until somebody says so. */

import type { DocumentData, SiteRecord } from "../site/document";
import { Records } from "./records";

export type Values = Record<string, unknown>;

/** What is done to one record. Of a record that exists, only touched fields: others may change the rest meanwhile. */
export type Touch = { is: "changed"; values: Values } | { is: "added"; record: SiteRecord } | { is: "removed" };

/** `table/id` → what is done to it, in the order in which it was first touched. */
export type Draft = ReadonlyMap<string, Touch>;

export const EMPTY: Draft = new Map();

export const keyOf = (table: string, id: string): string => `${table}/${id}`;

export function splitKey(key: string): [table: string, id: string] {
  const at = key.indexOf("/");
  return [key.slice(0, at), key.slice(at + 1)];
}

/** The site's records with the draft laid over them. */
export function laidOver(data: DocumentData, draft: Draft): Records {
  const records = new Map(data.records.map((record) => [keyOf(record.table, record.id), record]));
  for (const [key, touch] of draft) {
    const record = records.get(key);
    if (touch.is === "added") records.set(key, touch.record);
    else if (touch.is === "removed") records.delete(key);
    else if (record) records.set(key, { ...record, ...touch.values });
  }
  return new Records([...records.values()]);
}

/** The draft with some fields of a record replaced. */
export function withValues(draft: Draft, table: string, id: string, values: Values): Draft {
  const key = keyOf(table, id);
  const touch = draft.get(key);
  if (touch?.is === "removed") return draft;
  if (touch?.is === "added") return new Map(draft).set(key, { is: "added", record: { ...touch.record, ...values } });
  return new Map(draft).set(key, { is: "changed", values: { ...touch?.values, ...values } });
}

export function withRecord(draft: Draft, record: SiteRecord): Draft {
  return new Map(draft).set(keyOf(record.table, record.id), { is: "added", record });
}

/** The draft without a record. What the draft itself had added is simply forgotten. */
export function without(draft: Draft, table: string, id: string): Draft {
  const key = keyOf(table, id);
  const left = new Map(draft);
  if (left.get(key)?.is === "added") left.delete(key);
  else left.set(key, { is: "removed" });
  return left;
}

/** A new record like another: the same values under an id of its own. */
export function another(record: SiteRecord, id: string, values: Values): SiteRecord {
  return { ...record, ...values, table: record.table, id };
}
