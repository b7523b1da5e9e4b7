/** What is wrong with a draft's own fields, all at once, in the engine's words: kinds, limits, what must be there. */

import type { SiteRecord } from "../site/document";
import type { Message, Param } from "../words/say";
import { type Field, fieldsOf, PATTERNS } from "./fields";

/** A fault as the engine reports it. */
export interface Fault {
  table: string;
  record: string;
  field: string | null;
  code: string;
  params: Record<string, unknown>;
}

const BY_UNIT: readonly string[] = ["lpm", "s", "ma", "m2", "kpa", "pct"];

export function faultsOf(record: SiteRecord): Fault[] {
  return Object.entries(fieldsOf(record.table)).flatMap(([name, field]) => {
    const message = faultOf(field, record[name]);
    return message ? [{ table: record.table, record: record.id, field: name, ...message }] : [];
  });
}

export function faultOf(field: Field, value: unknown): Message | null {
  if (value === undefined || value === null) return field.required ? said("fault.missing") : null;
  if (field.kind === "whole" || field.kind === "number") return numberFault(field, value);
  if (typeof value !== "string") return said("fault.not_text", { given: String(value) });
  if (value.trim() === "") return field.required ? said("fault.empty") : null;
  if (field.most !== undefined && [...value].length > field.most) {
    return said("fault.too_long", { most: field.most, long: [...value].length });
  }
  return formFault(field, value);
}

function numberFault(field: Field, value: unknown): Message | null {
  if (typeof value !== "number" || !Number.isFinite(value)) return said("fault.not_number", { given: String(value) });
  if (field.kind === "whole" && !Number.isInteger(value)) return said("fault.not_whole", { given: String(value) });
  const [least, most] = [field.least ?? -Infinity, field.most ?? Infinity];
  return value < least || value > most ? outside(field, least, most, value) : null;
}

/** Said in the unit the field has, so that the reader sees their own. */
function outside(field: Field, least: number, most: number, given: number): Message {
  const unit = field.unit ?? "";
  if (unit && BY_UNIT.includes(unit)) {
    return said(`fault.outside_${unit}`, {
      [`least_${unit}`]: least,
      [`most_${unit}`]: most,
      [`given_${unit}`]: given,
    });
  }
  return unit
    ? said("fault.outside_bare", { least, most, unit, given })
    : said("fault.outside", { least, most, given });
}

const EXAMPLES: Partial<Record<Field["kind"], Record<string, string>>> = {
  clock: { clock_example: "21:30", sun_example: "sunset-00:30" },
  date: { example: "2026-11-25" },
  month_day: { example: "11-25" },
  moment: { example: "2026-11-25T21:30" },
};

function formFault({ kind }: Field, value: string): Message | null {
  const examples = EXAMPLES[kind];
  if (!examples || isWritten(kind, value)) return null;
  return said(`fault.not_${kind}`, { given: `"${value}"`, ...examples });
}

/** Whether a text is written as its kind asks; dates are on the calendar too. */
function isWritten(kind: Field["kind"], text: string): boolean {
  const dated = kind === "date" || kind === "moment";
  return new RegExp(`^(?:${PATTERNS[kind] ?? ".*"})$`).test(text) && (!dated || isOnCalendar(text.slice(0, 10)));
}

function isOnCalendar(date: string): boolean {
  const day = new Date(`${date}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(date);
}

export const isDate = (text: string): boolean => isWritten("date", text);

function said(code: string, params: Record<string, Param> = {}): Message {
  return { code, params };
}
