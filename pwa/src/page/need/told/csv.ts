/** The same tables as the server's, made on the phone out of what stands on the screen (RFC 4180). */

import { figureName } from "./names";
import type { Season, Work } from "./shapes";

const SEASON_COLUMNS = [
  "day",
  "demand_mm",
  "rain_mm",
  "effective_mm",
  "lost_mm",
  "rain_ran_off_mm",
  "applied_mm",
  "ran_off_mm",
  "uneven_mm",
  "taken_mm",
  "percolated_mm",
  "depletion_mm",
  "ready_mm",
  "total_mm",
  "reference_mm",
  "rung",
] as const;

export function workTable({ figures }: Work): string {
  const head = ["key", "name", "value", "unit", "inputs", "source", "rung", "row"];
  const rows = figures.map((one) => [
    one.key,
    figureName(one.key),
    one.value,
    one.unit,
    one.inputs.join(" "),
    one.source,
    one.rung,
    one.row,
  ]);
  return lines([head, ...rows]);
}

export function seasonTable({ days }: Season): string {
  return lines([[...SEASON_COLUMNS], ...days.map((day) => SEASON_COLUMNS.map((column) => day[column]))]);
}

type Cell = string | number | null;

function lines(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(cell).join(",")}\r\n`).join("");
}

function cell(value: Cell): string {
  const text = value === null ? "" : String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
