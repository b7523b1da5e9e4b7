/** The document's fields as the engine declares them: kinds, limits, defaults and groups. One source for every form. */

import described from "../../../generated/document/fields.json";

export const TABLES = [
  "programs",
  "windows",
  "closures",
  "hydrozones",
  "stations",
  "supplies",
  "controllers",
  "apart",
  "site",
  "turns",
  "asked",
  "weather",
  "normals",
  "soil_water",
  "audits",
  "cans",
  "droughts",
  "tiers",
  "repairs",
] as const;
export type Table = (typeof TABLES)[number];

export type KindName = "text" | "whole" | "number" | "choice" | "ref" | "clock" | "date" | "month_day" | "moment";

export interface Field {
  kind: KindName;
  required?: boolean;
  unit?: string;
  least?: number;
  most?: number;
  choices?: string[];
  /** Where a `ref` points. */
  table?: Table;
  default?: string | number;
}

interface TableFields {
  groups: Record<string, string[]>;
  fields: Record<string, Field>;
}

const DESCRIBED = described.tables as unknown as Record<string, TableFields>;
/** How a kind is written in a document, to match as a whole. */
export const PATTERNS = described.patterns as Partial<Record<KindName, string>>;
const NO_TABLE: TableFields = { groups: {}, fields: {} };

export const isTable = (name: string | undefined): name is Table => TABLES.some((table) => table === name);

export const fieldsOf = (table: string): Record<string, Field> => (DESCRIBED[table] ?? NO_TABLE).fields;

export const fieldOf = (table: string, name: string): Field | undefined => fieldsOf(table)[name];

/** Group → its fields. A field that stands alone is a group under its own name. */
export const groupsOf = (table: string): Record<string, string[]> => (DESCRIBED[table] ?? NO_TABLE).groups;

export const groupOf = (table: string, field: string): string =>
  Object.entries(groupsOf(table)).find(([, names]) => names.includes(field))?.[0] ?? field;

/** The value a record has in a field: its default where nothing is written; null where there is none. */
export function heldIn(record: Record<string, unknown>, table: string, name: string): unknown {
  return record[name] ?? fieldOf(table, name)?.default ?? null;
}
