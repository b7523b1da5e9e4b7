/** Plain numbers in the reader's digits and signs. */

import { numberFormat } from "./formats";
import type { Digits } from "./reader";

/** A number with at most so many decimals, rounded half to even. */
export function figure(value: number, places: number): string {
  const options = { maximumFractionDigits: places, roundingMode: "halfEven" } as Intl.NumberFormatOptions;
  return numberFormat(options).format(value);
}

/** The ten signs of a numbering system, as one number, so that every script keeps them in their order. */
export function digitSigns(system: Digits): string {
  const zeroToNine = new Intl.NumberFormat(`en-u-nu-${system}`, { useGrouping: false });
  return [..."0123456789"].map((digit) => zeroToNine.format(Number(digit))).join("");
}
