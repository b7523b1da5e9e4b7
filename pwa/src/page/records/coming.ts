/** When a program waters in the nights this phone knows. */

import type { KnownNight } from "../night/nights";

export interface ComingNight {
  night: string;
  runs: number;
  /** Its first start and its last end; null where nothing of it runs. */
  start: number | null;
  end: number | null;
  litres: number;
  /** What of it did not fit. */
  shortL: number;
  behind: boolean;
}

/** Nights in which the program is due, in order; those in which it is not are left out. */
export function comingNights(nights: ReadonlyMap<string, KnownNight>, program: string): ComingNight[] {
  return [...nights.entries()]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([night, known]) => comingNight(night, known, program))
    .filter((night) => night.runs > 0 || night.shortL > 0);
}

function comingNight(night: string, { sheet, behind }: KnownNight, program: string): ComingNight {
  const runs = sheet.runs.filter((run) => run.program === program);
  const short = sheet.shortfalls.filter((item) => item.program === program);
  return {
    night,
    runs: runs.length,
    start: runs.length ? Math.min(...runs.map((run) => run.start)) : null,
    end: runs.length ? Math.max(...runs.map((run) => run.end)) : null,
    litres: total(runs),
    shortL: total(short),
    behind,
  };
}

function total(items: readonly { volume_l: number }[]): number {
  return items.reduce((sum, item) => sum + item.volume_l, 0);
}

/** The next change of the site's clock in the nights known; null where they know of none. */
export function nextClockChange(
  nights: ReadonlyMap<string, KnownNight>,
  after: number,
): { night: string; at: number; before_s: number; after_s: number } | null {
  const sorted = [...nights.entries()].sort(([a], [b]) => (a < b ? -1 : 1));
  const all = sorted.flatMap(([night, { clock }]) => clock.changes.map((change) => ({ night, ...change })));
  return all.find((change) => change.at > after) ?? null;
}
