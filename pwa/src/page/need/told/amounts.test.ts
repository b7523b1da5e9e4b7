import { afterEach, expect, it } from "vitest";
import { units } from "../../words/reader";
import { season } from "../season/builders";
import { figureWords } from "./amounts";
import { seasonTable, workTable } from "./csv";

afterEach(() => {
  units.value = "metric";
});

const words = (value: number | null, unit: string, key = "") => figureWords({ key, value, unit });

it("tells figures in metric units, those of the air in kilopascals", () => {
  expect(words(2.8346, "mm")).toBe("2.83 mm");
  expect(words(15.2, "mm_per_h")).toBe("15.2 mm an hour");
  expect(words(1.5084, "kpa")).toBe("1.508 kPa");
  expect(words(0.0673, "kpa_per_c")).toBe("0.0673 kPa for each °C");
  expect(words(3.06, "mps")).toBe("3.06 m/s");
  expect(words(14, "mj_per_m2")).toBe("14 MJ/m²");
  expect(words(7291, "s")).toBe("2 h 1 min 31 s");
  expect(words(3, "1", "cycles")).toBe("3");
  expect(words(0.84712, "1")).toBe("0.847");
  expect(words(null, "mm")).toBe("–");
});

it("tells them in a reader's own units: a step of a degree Fahrenheit is five ninths", () => {
  units.value = "us";
  expect(words(25.4, "mm")).toBe("1 in");
  expect(words(6.8948, "kpa")).toBe("1 psi");
  expect(words(0.18, "kpa_per_c")).toBe("0.0145 psi for each °F");
});

it("makes tables as the server does: what has a comma or a quote stands in quotes", () => {
  const figure = { key: "demand", value: 2.5, unit: "mm", inputs: ["reference", "coefficient"], source: 'a, "b"' };
  const work = { turn: "t", night: "n", decision: null, messages: [], figures: [{ ...figure, rung: "", row: "w1" }] };
  const [head, row, end] = workTable(work).split("\r\n");
  expect(head).toBe("key,name,value,unit,inputs,source,rung,row");
  expect(row).toMatch(/^demand,.+,2\.5,mm,reference coefficient,"a, ""b""",,w1$/);
  expect(end).toBe("");
  const table = seasonTable({ hydrozone: "h", start_mm: 0, days: season([{ rain_mm: 3 }]), messages: [] });
  expect(table.split("\r\n")[1]?.split(",").slice(0, 3)).toEqual(["2026-07-01", "4", "3"]);
});
