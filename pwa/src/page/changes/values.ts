/** A field's or a field group's value in the reader's words and units. */

import { choiceWord } from "../records/choice-words";
import { type Field, fieldOf, groupsOf } from "../records/fields";
import { dayRuleOf, momentWords, recordTitle } from "../records/record-words";
import type { Records } from "../records/records";
import { t, tn } from "../words/catalogue";
import { dayOfYear, dayRuleWords, partsOf } from "../words/day-rules";
import { duration } from "../words/durations";
import { figure } from "../words/figures";
import { listed, sideBySide } from "../words/lists";
import { clockField, longDay } from "../words/moments";
import { amount, BASE_SUFFIXES } from "../words/units";

type Values = Record<string, unknown>;

/** What stands for nothing written: the field's own default, or that it is not set. */
export function valueWords(table: string, group: string, value: unknown, records: Records): string {
  if (group === "removed") return value === true ? t("removed") : t("kept");
  const names = groupsOf(table)[group] ?? [group];
  if (names.length === 1 && names[0] === group) return fieldWords(table, group, value, records);
  if (!isValues(value)) return notSet();
  const writer = GROUPS[group];
  return writer ? writer(value, table) : sideBySide(names.map((name) => fieldWords(table, name, value[name], records)));
}

/** Several values of one field, side by side: of a run time, what they all share is left out. */
export function valuesWords(table: string, group: string, values: readonly unknown[], records: Records): string[] {
  if (table === "turns" && group === "run" && shareSplit(values))
    return values.map((value) => duration(Number(isValues(value) ? (value.run_s ?? 0) : 0)));
  return values.map((value) => valueWords(table, group, value, records));
}

function shareSplit(values: readonly unknown[]): boolean {
  const splits = values.map((value) => (isValues(value) ? `${value.cycles ?? 1} ${value.soak_s ?? 0}` : ""));
  const runs = new Set(values.map((value) => (isValues(value) ? value.run_s : null)));
  return new Set(splits).size === 1 && (runs.size > 1 || values.length === 1);
}

const GROUPS: Record<string, (values: Values, table: string) => string> = {
  run: runWords,
  hours: (values) => spanOf(values.opens, values.closes, clockOrNone),
  span: (values) =>
    values.starts_on || values.ends_on
      ? spanOf(values.starts_on, values.ends_on, momentOrNone)
      : spanOf(values.starts, values.ends, clockOrNone),
  days: (values, table) => dayRuleWords(dayRuleOf({ ...values, table, id: "" })),
  clock: (values) => String(values.zone || values.zone_rule || values.zone_changes || notSet()),
};

function runWords(values: Values): string {
  const run = duration(Number(values.run_s ?? 0));
  const cycles = Number(values.cycles ?? 1);
  if (cycles <= 1) return run;
  const soak = Number(values.soak_s ?? 0);
  if (soak <= 0) return tn("{run} in {count} cycle", "{run} in {count} cycles", cycles, { run });
  return tn("{run} in {count} cycle, {soak} soak", "{run} in {count} cycles, {soak} soak", cycles, {
    run,
    soak: duration(soak),
  });
}

function spanOf(from: unknown, to: unknown, write: (value: unknown) => string): string {
  return t("{start}–{end}", { start: write(from), end: write(to) });
}

const clockOrNone = (value: unknown): string => (typeof value === "string" && value ? clockField(value) : notSet());
const momentOrNone = (value: unknown): string => (typeof value === "string" && value ? momentWords(value) : notSet());

function fieldWords(table: string, name: string, value: unknown, records: Records): string {
  const field = fieldOf(table, name);
  const held = value ?? field?.default ?? null;
  if (held === null || held === "") return notSet();
  if (!field) return String(held);
  if (typeof held === "number") return numberWords(field, held);
  return textWords(table, name, field, String(held), records);
}

function numberWords(field: Field, value: number): string {
  const unit = field.unit ?? "";
  if (unit === "s") return duration(value);
  if (unit === "pct") return t("{figure} %", { figure: figure(value, 1) });
  const quantity = BASE_SUFFIXES[unit];
  return quantity ? amount(quantity, value) : figure(value, 6);
}

function textWords(table: string, name: string, field: Field, value: string, records: Records): string {
  const writers: Partial<Record<Field["kind"], () => string>> = {
    choice: () => choiceWord(table, name, value),
    ref: () => recordTitle(records.get(field.table ?? "", value), records),
    clock: () => clockField(value),
    date: () => longDay(value),
    month_day: () => dayOfYear(value),
    moment: () => momentWords(value),
  };
  if (name === "dates") return listed(partsOf(value).map(longDay));
  return (writers[field.kind] ?? (() => value))();
}

function notSet(): string {
  return t("not set");
}

function isValues(value: unknown): value is Values {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
