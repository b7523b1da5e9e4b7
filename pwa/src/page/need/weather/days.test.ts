import { describe, expect, it } from "vitest";
import { Records } from "../../records/records";
import { daysBack, type Flag, recordOn, shownParams, weatherPart } from "./days";

const day = (date: string, fields: Record<string, unknown> = {}) => ({
  table: "weather",
  id: `w-${date}-${fields.kind ?? ""}`,
  day: date,
  ...fields,
});

const RECORDS = new Records([
  { table: "site", id: "here" },
  { table: "stations", id: "s1" },
  { table: "normals", id: "n1", month: 1 },
  day("2026-02-27", { high_degc: 14 }),
  day("2026-03-01", { kind: "forecast", high_degc: 17 }),
  day("2026-03-01", { kind: "observed", high_degc: 16 }),
  day("2026-03-02", { kind: "forecast" }),
]);

describe("the days of weather", () => {
  it("run back over the end of a month, the newest first, with gaps in their places", () => {
    const days = daysBack(RECORDS, "2026-03-01", 3);
    expect(days.map((one) => one.day)).toEqual(["2026-03-01", "2026-02-28", "2026-02-27"]);
    expect(days[1]).toMatchObject({ observed: undefined, forecast: undefined, told: null });
    expect(days[2]?.observed?.high_degc).toBe(14);
  });

  it("tell what was observed from what was expected; no kind is observed", () => {
    expect(recordOn(RECORDS, "2026-03-01", "observed")?.high_degc).toBe(16);
    expect(recordOn(RECORDS, "2026-03-01", "forecast")?.high_degc).toBe(17);
    expect(recordOn(RECORDS, "2026-03-02", "observed")).toBeUndefined();
  });

  it("carry what the engine says of each", () => {
    const told = { day: "2026-02-27", et_mm: 2.1, rung: "temperature", source: "", flags: [] };
    expect(daysBack(RECORDS, "2026-02-27", 1, [told])[0]?.told).toBe(told);
  });

  it("are asked about with no more of the site than they need", () => {
    const part = weatherPart(RECORDS, "2026-03-01", "2026-03-01");
    expect(part.map(({ table }) => table)).toEqual(["site", "normals", "weather", "weather"]);
  });
});

it("words a flag with the field's own label and the day instead of a record's id", () => {
  const flag: Flag = {
    code: "weather.stuck",
    params: { row: "0192-ab", field: "high_c", value: 3, days_count: 5 },
    fields: ["high_c"],
    barred: false,
  };
  expect(shownParams(flag, (field) => `<${field}>`, "Sun")).toEqual({
    row: "Sun",
    field: "<high_degc>",
    value: 3,
    days_count: 5,
  });
});
