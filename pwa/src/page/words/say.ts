/** Puts what the engine says (a code and its parameters) into the reader's language, units and the site's names. */

import { catalogue, fill, pluralForm, t } from "./catalogue";
import { duration } from "./durations";
import { figure } from "./figures";
import { clockField, longDay } from "./moments";
import { amount, BASE_SUFFIXES } from "./units";

export type Param = string | number | null;

export interface Message {
  code: string;
  params: Record<string, Param>;
}

/** Looks up what a reader should see in place of an id or an instant. */
export interface Names {
  name(kind: string, record: string): string;
  time(instant: number): string;
}

const NAMED = new Set([
  "site",
  "supply",
  "controller",
  "hydrozone",
  "station",
  "program",
  "turn",
  "window",
  "closure",
  "asked",
]);

const NOTHING = "—";

/** The message as one sentence. A code this page does not know was made by another version, and stands as it is. */
export function say(message: Message, names: Names): string {
  const saying = catalogue.value.sayings[message.code];
  if (!saying) return message.code;
  const shown: Record<string, string> = {};
  for (const [name, value] of Object.entries(message.params)) shown[name] = param(name, value, names);
  const plural = saying.many !== null && saying.count !== null;
  if (!plural) return t(saying.template, shown);
  return fill(pluralForm(saying.template, saying.many ?? "", Number(message.params[saying.count ?? ""] ?? 0)), shown);
}

function param(name: string, value: Param, names: Names): string {
  if (value === null) return NOTHING;
  const last = name.slice(name.lastIndexOf("_") + 1);
  if (NAMED.has(last)) return names.name(last, String(value));
  const writer = WRITERS[last];
  if (writer && (name !== last || WHOLE_NAMES.has(last))) return writer(value, names);
  return typeof value === "number" ? figure(value, 3) : value;
}

const WHOLE_NAMES = new Set(["at", "count", "date", "clock"]);

const WRITERS: Readonly<Record<string, (value: string | number, names: Names) => string>> = {
  ...Object.fromEntries(
    Object.entries(BASE_SUFFIXES).map(([suffix, quantity]) => [
      suffix,
      (value: string | number) => amount(quantity, Number(value)),
    ]),
  ),
  s: (value) => duration(Number(value)),
  at: (value, names) => names.time(Number(value)),
  clock: (value) => clockField(String(value)),
  date: (value) => longDay(String(value)),
  pct: (value) => t("{figure} %", { figure: figure(Number(value), 1) }),
  count: (value) => figure(Number(value), 0),
};
