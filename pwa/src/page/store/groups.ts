/** Field groups: fields whose values are only valid together have one version, and change together. */

import described from "../../../generated/document/fields.json";
import type { SiteRecord } from "../site/document";

interface Table {
  groups: Readonly<Record<string, readonly string[]>>;
  fields: Readonly<Record<string, { default?: unknown } | undefined>>;
}

const TABLES = described.tables as unknown as Readonly<Record<string, Table | undefined>>;

/** The document format in which this app writes its edits. */
export const FORMAT: number = described.format;
/** The document's tables in the document's order. */
export const TABLE_ORDER: readonly string[] = Object.keys(TABLES);
/** What stands for a record's being removed or not: versioned like a field. */
export const REMOVED = "removed";

/** The fields of a group; a field that stands alone is a group under its own name. */
export function fieldsOf(table: string, group: string): readonly string[] {
  return TABLES[table]?.groups[group] ?? [group];
}

/** What a record has in a group: a plain value, or an object of all the group's fields. Null means the default. */
export function valueIn(table: string, group: string, record: Readonly<SiteRecord> | undefined): unknown {
  const names = fieldsOf(table, group);
  if (stands(names, group)) return record?.[group] ?? null;
  return Object.fromEntries(names.map((name) => [name, record?.[name] ?? null]));
}

/** A group's value with all its fields, as an edit carries it: what is not named is at its default. */
export function whole(table: string, group: string, value: unknown): unknown {
  const names = fieldsOf(table, group);
  if (stands(names, group) || !isObject(value)) return value ?? null;
  return Object.fromEntries(names.map((name) => [name, value[name] ?? null]));
}

/** What a value of a group sets, by field. */
export function partsOf(table: string, group: string, value: unknown): Record<string, unknown> {
  const names = fieldsOf(table, group);
  if (stands(names, group) || !isObject(value)) return { [group]: value };
  return Object.fromEntries(names.map((name) => [name, value[name] ?? null]));
}

/** Whether two values of a group come to the same: what is at its default may be left out. */
export function sameValue(table: string, group: string, one: unknown, other: unknown): boolean {
  const [mine, theirs] = [partsOf(table, group, one), partsOf(table, group, other)];
  return fieldsOf(table, group).every((name) => plain(table, name, mine[name]) === plain(table, name, theirs[name]));
}

function plain(table: string, field: string, value: unknown): string {
  const usual = TABLES[table]?.fields[field]?.default;
  return JSON.stringify(value === undefined || value === usual ? null : value);
}

function stands(names: readonly string[], group: string): boolean {
  return names.length === 1 && names[0] === group;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
