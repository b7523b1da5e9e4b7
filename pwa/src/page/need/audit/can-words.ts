/** What a can and its place are called, for eyes and for screen readers. */

import { t } from "../../words/catalogue";
import { figure } from "../../words/figures";
import type { Can, Place } from "./grid";
import type { Measure } from "./measure";

export function placeWords({ column, row }: Place): string {
  return t("Row {row}, can {column}", { row: row + 1, column: column + 1 });
}

export function freeWords({ column, row }: Place): string {
  return t("Row {row}, place {column}: no can stands here", { row: row + 1, column: column + 1 });
}

/** A catch with its unit. */
export function catchWords(caught: number | null, measure: Measure): string {
  if (caught === null) return t("not read");
  return t("{figure} {unit}", { figure: measure.write(caught), unit: measure.unit });
}

export function canWords(can: Can, measure: Measure): string {
  return t("{can}: {reading}", { can: placeWords(can), reading: catchWords(can.catch, measure) });
}

export const percent = (share: number): string => t("{figure} %", { figure: figure(share * 100, 0) });
