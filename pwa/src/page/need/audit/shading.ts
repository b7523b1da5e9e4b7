/** A picture of the wetting: what fell between the cans, in bands around the mean. For the eye; no figure comes from it. */

import type { Extent, Place } from "./grid";

export interface Depth extends Place {
  mm: number;
}

/** Bands by share of the mean: below 60 %, to 85 %, to 115 %, to 140 %, and above. Our own steps, for the eye alone. */
export const BAND_ENDS = [0.6, 0.85, 1.15, 1.4] as const;
export const BANDS = BAND_ENDS.length + 1;

/** Squares to a side of a grid's step. */
const FINE = 6;
/** Cans further than this many steps away say nothing about a spot. */
const REACH = 2.2;

export function bandOf(share: number): number {
  return BAND_ENDS.filter((end) => share >= end).length;
}

/**
 * The depth at a spot, in steps of the grid: the mean of the cans around it, each weighing by the inverse square of its
 * distance (Shepard 1968). On a can it is that can's own. Null where no can is near.
 */
export function depthAt(depths: readonly Depth[], x: number, y: number): number | null {
  let [sum, weight] = [0, 0];
  for (const { column, row, mm } of depths) {
    const apart = (column - x) ** 2 + (row - y) ** 2;
    if (apart < 1e-9) return mm;
    if (apart > REACH ** 2) continue;
    sum += mm / apart;
    weight += 1 / apart;
  }
  return weight > 0 ? sum / weight : null;
}

/** A stretch of one band along a line of squares, in steps of the grid from the corner half a step outside the first can. */
export interface Stretch {
  band: number;
  x: number;
  y: number;
  width: number;
}

export const SQUARE = 1 / FINE;

/** Every stretch of the ground. Spots no can is near are left out. */
export function stretchesOf(depths: readonly Depth[], { columns, rows }: Extent): Stretch[] {
  const mean = depths.reduce((sum, { mm }) => sum + mm, 0) / depths.length;
  if (!(mean > 0)) return [];
  return Array.from({ length: rows * FINE }, (_, line) => line).flatMap((line) => {
    const bands = Array.from({ length: columns * FINE }, (_, at) => {
      const mm = depthAt(depths, middle(at), middle(line));
      return mm === null ? null : bandOf(mm / mean);
    });
    return joined(bands).map(({ band, from, until }) => ({
      band,
      x: from * SQUARE,
      y: line * SQUARE,
      width: (until - from) * SQUARE,
    }));
  });
}

/** The middle of a square, in steps from the first can: the ground begins half a step before it. */
const middle = (at: number): number => (at + 0.5) * SQUARE - 0.5;

function joined(bands: readonly (number | null)[]): { band: number; from: number; until: number }[] {
  const found: { band: number; from: number; until: number }[] = [];
  bands.forEach((band, at) => {
    const last = found.at(-1);
    if (band === null) return;
    if (last && last.band === band && last.until === at) last.until = at + 1;
    else found.push({ band, from: at, until: at + 1 });
  });
  return found;
}

/** One SVG path for all of a band. `step` is how many units of the drawing a step of the grid is. */
export function pathOf(stretches: readonly Stretch[], band: number, step: number): string {
  return stretches
    .filter((stretch) => stretch.band === band)
    .map(
      ({ x, y, width }) =>
        `M${round(x * step)} ${round(y * step)}h${round(width * step)}v${round(SQUARE * step)}h-${round(width * step)}z`,
    )
    .join("");
}

const round = (value: number): number => Math.round(value * 100) / 100;
