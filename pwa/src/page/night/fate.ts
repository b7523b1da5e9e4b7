/** What a night does to one station: when it gets water, or why it gets none. */

import { type ClockData, SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { byStart } from "./moments";
import type { NightSheet, Run, Shortfall } from "./sheet";

export type Fate =
  | { kind: "open" | "coming" | "done"; run: Run }
  /** It was due, and water or time did not suffice. */
  | { kind: "short"; shortfall: Shortfall }
  /** It was due, but closures or windows forbid it all night. */
  | { kind: "closed"; shortfall: Shortfall }
  | { kind: "not_due" }
  | { kind: "no_program" };

const CLOSED_CODES: ReadonlySet<string> = new Set([
  "short.closed_all_night",
  "short.closed_by_several",
  "short.closed_for_it",
  "short.closed_when_asked",
  "short.no_window",
  "short.no_windows_together",
]);

/** Seen from an instant; null where another night than tonight is looked at, and all its runs are to come. */
export function fateOf(sheet: NightSheet, document: SiteDocument, station: string, instant: number | null): Fate {
  const runs = sheet.runs.filter((run) => run.station === station).sort(byStart);
  const seen = instant ?? Number.NEGATIVE_INFINITY;
  const open = runs.find((run) => run.start <= seen && run.end > seen);
  if (open) return { kind: "open", run: open };
  const coming = runs.find((run) => run.start > seen);
  if (coming) return { kind: "coming", run: coming };
  const shortfall = sheet.shortfalls.find((item) => item.station === station);
  if (shortfall) return { kind: CLOSED_CODES.has(shortfall.why.code) ? "closed" : "short", shortfall };
  const last = runs[runs.length - 1];
  if (last) return { kind: "done", run: last };
  return { kind: hasTurn(document, station) ? "not_due" : "no_program" };
}

function hasTurn(document: SiteDocument, station: string): boolean {
  return document.all("turns").some((turn) => turn.station === station);
}

export interface OtherNight {
  night: string;
  run: Run;
  clock: SiteClock;
}

/** The first run of a station in the known nights after this one. */
export function nextNightOf(
  known: ReadonlyMap<string, { sheet: NightSheet; clock: ClockData }>,
  station: string,
  after: string,
): OtherNight | null {
  for (const night of [...known.keys()].sort().filter((one) => one > after)) {
    const found = known.get(night);
    const runs = found?.sheet.runs.filter((run) => run.station === station).sort(byStart);
    if (found && runs?.[0]) return { night, run: runs[0], clock: new SiteClock(found.clock) };
  }
  return null;
}
