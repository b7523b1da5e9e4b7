/** Days of weather as the list shows them: what was read, what is expected, and what the engine says of each. */

import type { Records } from "../../records/records";
import { textOf } from "../../records/records";
import type { SiteRecord } from "../../site/document";
import { dayAfter } from "../../words/moments";
import type { Param } from "../../words/say";

/** As `pengan/engine/phone/weather_days.py` tells it. */
export interface Flag {
  code: string;
  params: Record<string, Param>;
  fields: string[];
  /** The readings it is about are left aside. */
  barred: boolean;
}

export interface ToldDay {
  day: string;
  et_mm: number | null;
  rung: string;
  source: string;
  flags: Flag[];
}

export interface WeatherDay {
  day: string;
  observed: SiteRecord | undefined;
  forecast: SiteRecord | undefined;
  /** Null until the engine has answered. */
  told: ToldDay | null;
}

/** A record's own id, where a day has none yet: the one that the server gives a station's day. */
export const newDayId = (day: string): string => `observed.${day}`;

export function recordOn(records: Records, day: string, kind: "observed" | "forecast"): SiteRecord | undefined {
  return records.of("weather").find((one) => one.day === day && (textOf(one, "kind") || "observed") === kind);
}

/** So many days up to the last, the newest first. */
export function daysBack(records: Records, last: string, count: number, told: readonly ToldDay[] = []): WeatherDay[] {
  const answers = new Map(told.map((one) => [one.day, one]));
  return Array.from({ length: count }, (_, back) => dayAfter(last, -back)).map((day) => ({
    day,
    observed: recordOn(records, day, "observed"),
    forecast: recordOn(records, day, "forecast"),
    told: answers.get(day) ?? null,
  }));
}

/** The part of the document that weather is worked out from. Forecasts of past days stay in: they fill gaps. */
export function weatherPart(records: Records, first: string, last: string): SiteRecord[] {
  const within = (one: SiteRecord) => first <= textOf(one, "day") && textOf(one, "day") <= last;
  return [...records.of("site"), ...records.of("normals"), ...records.of("weather").filter(within)];
}

/** The engine's names of readings → the fields of a record. */
const FIELDS: Readonly<Record<string, string>> = { high_c: "high_degc", low_c: "low_degc", dew_c: "dew_degc" };

export const fieldNamed = (name: string): string => FIELDS[name] ?? name;

/** A flag's parameters for people: the field by its label, and a record of the phone by its day instead of its id. */
export function shownParams(flag: Flag, label: (field: string) => string, row: string): Record<string, Param> {
  const { field } = flag.params;
  return { ...flag.params, row, ...(typeof field === "string" ? { field: label(fieldNamed(field)) } : {}) };
}
