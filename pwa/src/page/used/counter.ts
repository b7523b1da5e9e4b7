/** What a meter's counter shows, from its own unit into litres. */

import type { Unit } from "../words/units";

/** The unit that counters mostly have where a reader's set of units is used. Common practice, no source. */
const COUNTERS: Readonly<Record<string, string>> = { metric: "m3", us: "gal", imperial: "igal" };

export const counterUnit = (set: string): string => COUNTERS[set] ?? "m3";

/** Litres, exact to the millilitre. */
export function litresOf(count: number, { factor, offset }: Unit): number {
  const [top = 1, bottom = 1] = factor;
  const [more = 0, parts = 1] = offset;
  return Math.round(((count * top) / bottom + more / parts) * 1000) / 1000;
}
