/** Programs by nights: who waters when, with how much. Plain figures; and where the arrow keys lead. */

import type { Program, SiteDocument } from "../site/document";
import { type AheadNight, type Share, shareOf, type Who } from "./almanac";

export interface GridLine {
  who: Who;
  /** Undefined: what was asked for by station. */
  program: Program | undefined;
  /** By date; null where the night is not known. */
  cells: Map<string, Share | null>;
}

/** The site's programs in its own order; last what was asked for by station, where there is any. */
export function gridOf(
  document: SiteDocument,
  dates: readonly string[],
  nights: ReadonlyMap<string, AheadNight>,
): GridLine[] {
  const line = (who: Who, program: Program | undefined): GridLine => ({
    who,
    program,
    cells: new Map(
      dates.map((date) => {
        const night = nights.get(date);
        return [date, night ? shareOf(night.sheet, who) : null];
      }),
    ),
  });
  const programs = [...document.programs.values()].map((program) => line(program.id, program));
  const asked = line(null, undefined);
  return [...asked.cells.values()].some((share) => share && waters(share)) ? [...programs, asked] : programs;
}

/** Whether a program has anything to do in a night, done or not. */
export function waters(share: Share): boolean {
  return share.runs.length > 0 || share.shortfalls.length > 0;
}

export interface Spot {
  line: number;
  column: number;
}

/** Where a key leads from a field; null: not one of ours. */
export function step(spot: Spot, key: string, lines: number, columns: number, mirrored: boolean): Spot | null {
  const forward = mirrored ? -1 : 1;
  const moves: Record<string, Spot> = {
    ArrowUp: { line: spot.line - 1, column: spot.column },
    ArrowDown: { line: spot.line + 1, column: spot.column },
    ArrowRight: { line: spot.line, column: spot.column + forward },
    ArrowLeft: { line: spot.line, column: spot.column - forward },
    Home: { line: spot.line, column: 0 },
    End: { line: spot.line, column: columns - 1 },
  };
  const to = moves[key];
  if (!to) return null;
  return { line: within(to.line, lines), column: within(to.column, columns) };
}

function within(value: number, count: number): number {
  return Math.min(count - 1, Math.max(0, value));
}
