import { describe, expect, it } from "vitest";
import { faultsOf } from "./checking";
import { Records } from "./records";
import { faultsOfRecord } from "./whole";

const codes = (record: { table: string; id: string; [field: string]: unknown }) =>
  faultsOf(record).map(({ field, code }) => [field, code]);

describe("what is wrong with a record's fields", () => {
  it("is told all at once", () => {
    expect(
      codes({ table: "stations", id: "s", number: "", name: "  ", flow_lpm: 0, area_m2: Number.NaN, current_ma: 1.5 }),
    ).toEqual([
      ["number", "fault.empty"],
      ["name", "fault.empty"],
      ["supply", "fault.missing"],
      ["flow_lpm", "fault.outside_lpm"],
      ["current_ma", "fault.not_whole"],
      ["area_m2", "fault.not_number"],
    ]);
  });

  it("gives the limits in the field's own unit", () => {
    const [fault] = faultsOf({ table: "controllers", id: "c", name: "North", valve_gap_s: 900 });
    expect(fault).toMatchObject({ code: "fault.outside_s", params: { least_s: 0, most_s: 600, given_s: 900 } });
  });

  it("knows the calendar and the sun", () => {
    const program = (values: object) => codes({ table: "programs", id: "p", name: "P", ...values });
    expect(program({ start: "sunset-00:30", finish_by: "24:00", every_from: "2028-02-29" })).toEqual([]);
    expect(program({ start: "24:30", every_from: "2026-02-29", season_from: "11-31" })).toEqual([
      ["every_from", "fault.not_date"],
      ["season_from", "fault.not_month_day"],
      ["start", "fault.not_clock"],
    ]);
  });

  it("counts what people see, not code units", () => {
    expect(codes({ table: "programs", id: "p", name: "P", letter: "🌴🌴" })).toEqual([]);
    expect(codes({ table: "programs", id: "p", name: "P", letter: "ABC" })).toEqual([["letter", "fault.too_long"]]);
  });
});

describe("what is wrong between fields of a record", () => {
  const none = new Records([]);
  const found = (record: { table: string; id: string; [field: string]: unknown }, records = none) =>
    faultsOfRecord(record, records).map(({ field, code }) => [field, code]);

  it("day rules have what they need", () => {
    expect(found({ table: "windows", id: "w", opens: "21:00", closes: "06:00", days: "every_n" })).toEqual([
      ["every_n_days", "fault.day_rule_needs"],
      ["every_from", "fault.day_rule_needs"],
    ]);
  });

  it("a closure has one whole span that ends after it starts", () => {
    const closure = { table: "closures", id: "k", name: "Market" };
    expect(found(closure)).toEqual([["starts", "fault.closure_without_span"]]);
    expect(found({ ...closure, starts: "20:00" })).toEqual([["ends", "fault.closure_half_span"]]);
    expect(found({ ...closure, starts_on: "2026-11-25T22:00", ends_on: "2026-11-25T21:00" })).toEqual([
      ["ends_on", "fault.closure_backwards"],
    ]);
    expect(found({ ...closure, starts: "20:00", ends_on: "2026-11-25T21:00" })).toEqual([
      [null, "fault.closure_two_spans"],
    ]);
  });

  it("no two stations share a number", () => {
    const records = new Records([{ table: "stations", id: "a", number: "N14" }]);
    const station = { table: "stations", id: "b", number: " n14 ", name: "B", supply: "m", flow_lpm: 10 };
    expect(found(station, records)).toEqual([["number", "fault.number_twice"]]);
  });

  it("supplies and cabinets do not contradict themselves", () => {
    expect(
      found({
        table: "supplies",
        id: "m",
        name: "M",
        limit_lpm: 100,
        steady_lpm: 120,
        least_lpm: 110,
        fed_by: "w",
        lead_s: 60,
      }),
    ).toEqual([
      ["steady_lpm", "fault.steady_over_limit"],
      ["least_lpm", "fault.least_over_limit"],
      ["lead_s", "fault.lead_of_main"],
    ]);
    expect(found({ table: "controllers", id: "c", name: "C", valve_gap_s: 5 })).toEqual([
      ["valve_gap_s", "fault.gap_without_places"],
    ]);
  });
});
