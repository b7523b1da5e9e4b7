/** Figures of the work in the reader's units. More decimals than on other screens: somebody may want to check the sum. */

import { t } from "../../words/catalogue";
import { duration } from "../../words/durations";
import { figure } from "../../words/figures";
import { bareFigure, shownUnit, symbol, type Unit, unitsOf } from "../../words/units";
import type { Figure } from "../told/shapes";

export const NOTHING = "–";

/** Depth as on other screens: `12.3 mm`. */
export function depth(mm: number): string {
  return inUnit(shownUnit("depth", mm), mm, 0);
}

export function figureWords({ key, value, unit }: Pick<Figure, "key" | "value" | "unit">): string {
  if (value === null) return NOTHING;
  return (WRITERS[unit] ?? plain)(value, key);
}

const WRITERS: Readonly<Record<string, (value: number, key: string) => string>> = {
  mm: (value) => inUnit(shownUnit("depth", value), value, 1),
  mm_per_h: (value) => t("{depth} an hour", { depth: inUnit(shownUnit("depth", value), value, 1) }),
  mps: (value) => inUnit(shownUnit("speed", value), value, 1),
  mj_per_m2: (value) => inUnit(shownUnit("radiation", value), value, 1),
  kpa: (value) => airPressure(value, 3),
  kpa_per_c: perDegree,
  pct: (value) => t("{figure} %", { figure: figure(value, 1) }),
  s: (value) => duration(value),
};

function plain(value: number, key: string): string {
  return figure(value, key === "cycles" ? 0 : 3);
}

/** Of the air even a hundredth of a bar is too coarse: where pipes are measured in bar, it is told in kilopascals. */
function airPressure(kpa: number, places: number): string {
  const [own, kilo] = [shownUnit("pressure", kpa), unitsOf("pressure").kpa];
  const unit = own.written.includes("bar") && kilo ? kilo : own;
  return inUnit({ ...unit, places }, kpa, 0);
}

/** A step of one degree: five ninths of it where degrees are Fahrenheit. */
function perDegree(value: number): string {
  const degree = shownUnit("temperature", 20);
  const [top = 1, bottom = 1] = degree.factor;
  return t("{pressure} for each {degree}", {
    pressure: airPressure((value * top) / bottom, 4),
    degree: symbol(degree),
  });
}

function inUnit(unit: Unit, base: number, morePlaces: number): string {
  return t(unit.written, { figure: bareFigure({ ...unit, places: unit.places + morePlaces }, base) });
}
