/** What a record is called in lists, and the line below it that says what matters of it. */

import type { SiteRecord } from "../site/document";
import { t, tn } from "../words/catalogue";
import { type DayRule, dayRuleWords } from "../words/day-rules";
import { duration } from "../words/durations";
import { sideBySide } from "../words/lists";
import { clockField, monthName, shortDay, timeOfDay } from "../words/moments";
import { amount, flow } from "../words/units";
import { choiceWord } from "./choice-words";
import { isTable, type Table } from "./fields";
import { turnsOf } from "./order";
import { numberOf, type Records, textOf } from "./records";
import { scopeWords } from "./scope";
import { fedBy } from "./supply-tree";
import { newTitle } from "./table-words";

export function recordTitle(record: SiteRecord | undefined, records: Records): string {
  if (!record) return t("A record that is not there");
  if (record.table === "stations") return stationTitle(record);
  if (record.table === "turns") return refTitle(record, "station", records);
  if (record.table === "repairs") {
    return t("{station}, {what}", {
      station: refTitle(record, "station", records),
      what: choiceWord("repairs", "found", textOf(record, "found") || "other"),
    });
  }
  if (record.table === "apart") {
    return t("{station} and {other}", {
      station: refTitle(record, "station", records),
      other: refTitle(record, "other", records),
    });
  }
  const day = dayTitle(record, records);
  if (day) return day;
  if (record.table === "windows" && !textOf(record, "name")) return hoursWords(record, "opens", "closes");
  return textOf(record, "name") || (isTable(record.table) ? newTitle(record.table) : record.id);
}

/** What is of a day or a month is called after it. */
function dayTitle(record: SiteRecord, records: Records): string {
  const day = textOf(record, "day");
  if (record.table === "weather" && day) return shortDay(day);
  if (record.table === "normals") return monthName(numberOf(record, "month") ?? 1);
  if (record.table === "soil_water" && day) {
    return t("{hydrozone}, {date}", { hydrozone: refTitle(record, "hydrozone", records), date: shortDay(day) });
  }
  return "";
}

function stationTitle(record: SiteRecord): string {
  return [textOf(record, "number"), textOf(record, "name")].filter(Boolean).join(" ") || newTitle("stations");
}

export function refTitle(record: SiteRecord, field: string, records: Records): string {
  const id = textOf(record, field);
  const table = field === "other" ? "stations" : tableOfField(field);
  return id ? recordTitle(records.get(table, id), records) : t("not chosen yet");
}

function tableOfField(field: string): string {
  return field === "supply" || field === "fed_by" ? "supplies" : `${field}s`;
}

/** The line below a record's name. */
export function recordLine(record: SiteRecord, records: Records): string {
  const line = isTable(record.table) ? LINES[record.table] : undefined;
  return line ? sideBySide(line(record, records)) : "";
}

const LINES: Partial<Record<Table, (record: SiteRecord, records: Records) => string[]>> = {
  weather: (record) => [
    choiceWord("weather", "kind", textOf(record, "kind") || "observed"),
    measured("temperature", record, "low_degc"),
    measured("temperature", record, "high_degc"),
    measured("depth", record, "rain_mm"),
  ],
  normals: (record) => [measured("depth", record, "et_mm"), measured("depth", record, "rain_mm")],
  soil_water: (record) => [measured("depth", record, "depletion_mm")],
  audits: (record, records) => [refTitle(record, "station", records), shortDay(textOf(record, "day"))],
  programs: (record, records) => [daysOf(record), startWords(record), turnsWords(record, records)],
  windows: (record, records) => [hoursWords(record, "opens", "closes"), daysOf(record), scopeWords(record, records)],
  closures: (record, records) => [
    spanWords(record),
    textOf(record, "starts_on") ? "" : daysOf(record),
    scopeWords(record, records),
    choiceWord("closures", "cause", textOf(record, "cause") || "other"),
  ],
  hydrozones: (record, records) => [textOf(record, "planting"), stationCount(records, "hydrozone", record.id)],
  stations: (record, records) => [
    textOf(record, "part"),
    refTitle(record, "supply", records),
    amountOf(record, "flow_lpm", flow),
  ],
  supplies: (record, records) => [kindOfSupply(record), limitWords(record), stationsOf(record, records)],
  controllers: (record, records) => [
    openWords(record),
    currentWords(record),
    stationCount(records, "controller", record.id),
  ],
  apart: (record) => [textOf(record, "reason")],
  repairs: (record) => [choiceWord("repairs", "state", textOf(record, "state") || "open"), textOf(record, "owner")],
};

export function daysOf(record: SiteRecord): string {
  return dayRuleWords(dayRuleOf(record));
}

const DAY_FIELDS = ["days", "weekdays", "every_n_days", "every_from", "dates", "season_from", "season_to"] as const;

export function dayRuleOf(record: SiteRecord): DayRule {
  const values = DAY_FIELDS.map((field) => [field, record[field] || null]);
  return Object.fromEntries(values) as unknown as DayRule;
}

function startWords(record: SiteRecord): string {
  const start = textOf(record, "start");
  return start ? t("from {time}", { time: clockField(start) }) : t("as soon as a window opens");
}

function turnsWords(record: SiteRecord, records: Records): string {
  const turns = turnsOf(records, record.id);
  const whole = turns.reduce((sum, turn) => sum + (numberOf(turn, "run_s") ?? 0), 0);
  if (!turns.length) return t("no turn yet");
  return tn("{count} turn, {duration}", "{count} turns, {duration}", turns.length, {
    duration: duration(whole),
  });
}

/** `21:00–06:00`, as the reader has times. */
export function hoursWords(record: SiteRecord, from: string, to: string): string {
  const [start, end] = [textOf(record, from), textOf(record, to)];
  if (!start || !end) return t("hours not set");
  return t("{start}–{end}", { start: clockField(start), end: clockField(end) });
}

export function momentWords(moment: string): string {
  const [date = "", time = ""] = moment.split("T");
  return t("{day}, {time}", { day: shortDay(date), time: timeOfDay(new Date(`${date}T${time}Z`)) });
}

function spanWords(record: SiteRecord): string {
  const [from, until] = [textOf(record, "starts_on"), textOf(record, "ends_on")];
  if (!from || !until) return hoursWords(record, "starts", "ends");
  const start = momentWords(from);
  return from.slice(0, 10) === until.slice(0, 10)
    ? t("{start}–{end}", { start, end: timeOfDay(new Date(`${until}Z`)) })
    : t("{start} – {end}", { start, end: momentWords(until) });
}

function kindOfSupply(record: SiteRecord): string {
  const water = choiceWord("supplies", "water", textOf(record, "water") || "town");
  return textOf(record, "fed_by") ? t("main") : t("source: {water}", { water });
}

function limitWords(record: SiteRecord): string {
  const limit = numberOf(record, "limit_lpm");
  return limit === null ? t("no limit of its own") : t("at most {flow}", { flow: flow(limit) });
}

/** Those that hang on it; where none does, those its mains carry water to. */
function stationsOf(record: SiteRecord, records: Records): string {
  const own = records.of("stations").filter((station) => station.supply === record.id).length;
  if (own) return tn("{count} station", "{count} stations", own);
  const fed = fedBy(records, record.id);
  const through = records.of("stations").filter((station) => fed.has(textOf(station, "supply"))).length;
  return tn("{count} station through its mains", "{count} stations through its mains", through);
}

function openWords(record: SiteRecord): string {
  const open = numberOf(record, "max_open");
  return open === null ? "" : tn("{count} open at once", "{count} open at once", open);
}

function currentWords(record: SiteRecord): string {
  const current = numberOf(record, "max_current_ma");
  return current === null ? "" : t("at most {current}", { current: amount("current", current) });
}

function measured(quantity: string, record: SiteRecord, field: string): string {
  return amountOf(record, field, (value) => amount(quantity, value));
}

function amountOf(record: SiteRecord, field: string, write: (value: number) => string): string {
  const value = numberOf(record, field);
  return value === null ? "" : write(value);
}

function stationCount(records: Records, field: string, id: string): string {
  const count = records.of("stations").filter((station) => station[field] === id).length;
  return tn("{count} station", "{count} stations", count);
}
