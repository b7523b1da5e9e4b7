/** How a stepper steps: to the next value within the limits, never past them. */

import { numberFormat } from "../words/formats";

export function stepped(value: number, by: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value + by));
}

/** `+5`, `−1`, in the reader's signs and digits. */
export function signed(by: number): string {
  return numberFormat({ signDisplay: "always" }).format(by).replace("-", "−");
}
