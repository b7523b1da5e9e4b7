/** In what catches are read: depths in the reader's own unit, or millilitres; and how large the steps are by thumb. */

import { numberOf, textOf } from "../../records/records";
import type { SiteRecord } from "../../site/document";
import { t } from "../../words/catalogue";
import { figure } from "../../words/figures";
import { asNumber, readFigure } from "../../words/numbers";
import { readAmount } from "../../words/parsing";
import { bareFigure, shownUnit, symbol } from "../../words/units";

export interface Measure {
  unit: string;
  /** In base units: millimetres or millilitres. */
  steps: readonly number[];
  /** The figure alone. */
  write(base: number): string;
  /** Raises `WordsFault`. */
  read(text: string): number;
  /** Millimetres of water; null where a can's opening is not known. */
  depthMm(base: number): number | null;
}

const INCH_MM = 25.4;
const STEPS_MM = [-2, -0.5, 0.5, 2];
const STEPS_IN = [-0.1, -0.02, 0.02, 0.1].map((inches) => inches * INCH_MM);
const STEPS_ML = [-5, -1, 1, 5];

export function measureOf(audit: SiteRecord): Measure {
  return textOf(audit, "caught_in") === "ml" ? millilitres(numberOf(audit, "opening_cm2")) : depths();
}

function depths(): Measure {
  const unit = shownUnit("depth", 0);
  return {
    unit: symbol(unit),
    steps: unit.factor[0] === 1 || unit.places < 2 ? STEPS_MM : STEPS_IN,
    write: (mm) => bareFigure(unit, mm),
    read: (text) => readAmount("depth", text, unit),
    depthMm: (mm) => mm,
  };
}

/** A millilitre on a square centimetre is ten millimetres. */
function millilitres(opening: number | null): Measure {
  return {
    unit: t("mL"),
    steps: STEPS_ML,
    write: (ml) => figure(ml, 1),
    read: (text) => asNumber(readFigure(text)),
    depthMm: (ml) => (opening ? (ml * 10) / opening : null),
  };
}

/** The area of a round opening, in cm², from its diameter in mm, and back. */
export const openingOf = (diameterMm: number): number => Math.PI * (diameterMm / 20) ** 2;
export const diameterOf = (openingCm2: number): number => 20 * Math.sqrt(openingCm2 / Math.PI);
