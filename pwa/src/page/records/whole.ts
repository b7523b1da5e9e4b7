/** Rules between fields of one record, said at once; the engine's own rules over the whole document have the last word. */

import type { SiteRecord } from "../site/document";
import type { Param } from "../words/say";
import { type Fault, faultsOf } from "./checking";
import { numberOf, type Records, textOf } from "./records";

type Rule = (record: SiteRecord, records: Records) => [field: string | null, code: string, params?: Params][];
type Params = Record<string, Param>;

/** Everything that can be told of a record without the planner. */
export function faultsOfRecord(record: SiteRecord, records: Records): Fault[] {
  const found = (RULES[record.table] ?? []).flatMap((rule) => rule(record, records));
  const across = found.map(([field, code, params = {}]) => ({
    table: record.table,
    record: record.id,
    field,
    code,
    params,
  }));
  return [...faultsOf(record), ...across];
}

const has = (record: SiteRecord, field: string): boolean => record[field] != null && record[field] !== "";

const NEEDED: Record<string, string[]> = {
  weekdays: ["weekdays"],
  every_n: ["every_n_days", "every_from"],
  dates: ["dates"],
};

const days: Rule = (record) => {
  const kind = textOf(record, "days");
  const missing = (NEEDED[kind] ?? []).filter((field) => !has(record, field));
  const ends = ["season_from", "season_to"].filter((field) => !has(record, field));
  return [
    ...missing.map((field): [string, string, Params] => [field, "fault.day_rule_needs", { days: kind }]),
    ...(ends.length === 1 ? ends.map((field): [string, string] => [field, "fault.half_season"]) : []),
  ];
};

const hours: Rule = (record) =>
  ["opens", "closes"].filter((field) => !has(record, field)).map((field) => [field, "fault.window_needs"]);

const span: Rule = (record) => {
  const once = ["starts_on", "ends_on"].filter((field) => has(record, field));
  const ruled = ["starts", "ends"].filter((field) => has(record, field));
  if (!once.length && !ruled.length) return [["starts", "fault.closure_without_span"]];
  if (once.length && ruled.length) return [[null, "fault.closure_two_spans"]];
  const ends = once.length ? ["starts_on", "ends_on"] : ["starts", "ends"];
  const half = ends.filter((field) => !has(record, field));
  if (half.length) return half.map((field) => [field, "fault.closure_half_span"]);
  const [starts, stops] = [textOf(record, "starts_on"), textOf(record, "ends_on")];
  return once.length && stops <= starts ? [["ends_on", "fault.closure_backwards", { starts, ends: stops }]] : [];
};

const limits: Rule = (record) => {
  const limit_lpm = numberOf(record, "limit_lpm");
  if (limit_lpm === null) return [];
  return (["steady", "least"] as const).flatMap((name): [string, string, Params][] => {
    const field = `${name}_lpm`;
    const value = numberOf(record, field);
    return value !== null && value > limit_lpm
      ? [[field, `fault.${name}_over_limit`, { [field]: value, limit_lpm }]]
      : [];
  });
};

const lead: Rule = (record) =>
  numberOf(record, "lead_s") && has(record, "fed_by")
    ? [["lead_s", "fault.lead_of_main", { supply: textOf(record, "fed_by") }]]
    : [];

const gap: Rule = (record) =>
  numberOf(record, "valve_gap_s") && !has(record, "max_open") ? [["valve_gap_s", "fault.gap_without_places"]] : [];

const number: Rule = (record, records) => {
  const own = folded(record);
  const other = records.of("stations").find((one) => one.id !== record.id && own !== "" && folded(one) === own);
  return other ? [["number", "fault.number_twice", { station: other.id, number: textOf(record, "number") }]] : [];
};

const folded = (record: SiteRecord): string => textOf(record, "number").trim().toLowerCase();

const pair: Rule = (record) =>
  has(record, "station") && record.station === record.other
    ? [["other", "fault.apart_itself", { station: textOf(record, "station") }]]
    : [];

const place: Rule = (record) => {
  const missing = ["latitude_deg", "longitude_deg"].filter((field) => !has(record, field));
  return missing.length === 1 ? missing.map((field) => [field, "fault.half_place"]) : [];
};

const RULES: Record<string, Rule[]> = {
  programs: [days],
  windows: [days, hours],
  closures: [days, span],
  supplies: [limits, lead],
  controllers: [gap],
  stations: [number],
  apart: [pair],
  site: [place],
};
