/** Quantities in the reader's units. The table comes from the same source as the server's, factors as exact fractions. */

import table from "../../../generated/catalogues/units.json";
import { t } from "./catalogue";
import { figure } from "./figures";
import { ownUnits, type UnitSet, units } from "./reader";

export interface Unit {
  written: string;
  factor: number[];
  offset: number[];
  places: number;
}

interface Quantity {
  units: Record<string, Unit>;
  sets: Record<string, (number | string)[][]>;
}

const QUANTITIES = table as unknown as Record<string, Quantity>;

/** What the end of a parameter's name says is measured: `limit_lpm` is a flow. */
export const BASE_SUFFIXES: Readonly<Record<string, string>> = {
  lpm: "flow",
  l: "volume",
  mm: "depth",
  m: "length",
  m2: "area",
  kpa: "pressure",
  ma: "current",
  degc: "temperature",
  mps: "speed",
  mj: "radiation",
};

/** An amount in base units, as this reader reads it: `amount("flow", 240)` → `240 L/min`. */
export function amount(quantity: string, base: number): string {
  const unit = unitFor(quantity, base, units.value);
  return t(unit.written, { figure: bareFigure(unit, base) });
}

/** The same to two figures, for what is only known roughly: how long a walk is, how well a phone knows its place. */
export function roughly(quantity: string, base: number): string {
  const unit = unitFor(quantity, base, units.value);
  const value = figureIn(unit, base);
  const step = Math.max(1, 10 ** (Math.floor(Math.log10(Math.abs(value) || 1)) - 1));
  return t(unit.written, { figure: figure(Math.round(value / step) * step, 0) });
}

/** The figure alone, for a field that has its unit beside it. */
export function bareFigure(unit: Unit, base: number): string {
  return figure(figureIn(unit, base), unit.places);
}

function figureIn(unit: Unit, base: number): number {
  const [factorTop = 1, factorBottom = 1] = unit.factor;
  const [offsetTop = 0, offsetBottom = 1] = unit.offset;
  return ((base - offsetTop / offsetBottom) * factorBottom) / factorTop;
}

/** The reader's own choice for the quantity, or the unit that their set has for that size. */
function unitFor(quantity: string, base: number, set: UnitSet): Unit {
  const found = QUANTITIES[quantity];
  const own = found?.units[ownUnits.value[quantity] ?? ""];
  if (own) return own;
  const steps = found?.sets[set] ?? [];
  const step = [...steps].reverse().find(([least]) => Math.abs(base) >= Number(least) || Number(least) === 0);
  const unit = found?.units[String(step?.[1])];
  if (!unit) throw new Error(`no unit for ${quantity} in ${set}`);
  return unit;
}

/** The unit alone, as it stands beside a field: `L/min`. */
export function symbol(unit: Unit): string {
  return t(unit.written, { figure: "" })
    .replace(/[\u2068\u2069]/g, "")
    .trim();
}

/** The unit in which this reader sees an amount; for zero, the one a bare figure is taken in. */
export function shownUnit(quantity: string, base: number): Unit {
  return unitFor(quantity, base, units.value);
}

/** All units of a quantity, by key. */
export function unitsOf(quantity: string): Readonly<Record<string, Unit>> {
  return QUANTITIES[quantity]?.units ?? {};
}

export const flow = (lpm: number): string => amount("flow", lpm);
export const volume = (litres: number): string => amount("volume", litres);
