/** What the stations' room reads: the site as it stands on this phone, and when each station gets water next. */

import { computed } from "@preact/signals";
import { firstNight, knownNights } from "../effect/grounds";
import { loaded } from "../night/night";
import { now } from "../night/now";
import type { Run } from "../night/sheet";
import { SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { site } from "../store/queries";
import { linesOf } from "./list";

/** The site with what was changed here; where nobody is signed in, the site that everybody may read. */
export const ground = computed(() => site.value ?? loaded.value?.document ?? null);

export interface NextRun {
  night: string;
  run: Run;
  clock: SiteClock;
  tonight: boolean;
  open: boolean;
}

/** The run that is open, or the first to come in the nights that are known, by station. */
export const nextRuns = computed<ReadonlyMap<string, NextRun>>(() => {
  const found = new Map<string, NextRun>();
  for (const night of [...knownNights.value.keys()].sort()) {
    const known = knownNights.value.get(night);
    if (!known || known.sheet.ends <= now.value) continue;
    const clock = new SiteClock(known.clock);
    for (const run of [...known.sheet.runs].sort((a, b) => a.start - b.start)) {
      if (run.end <= now.value || found.has(run.station)) continue;
      found.set(run.station, { night, run, clock, tonight: night === firstNight.value, open: run.start <= now.value });
    }
  }
  return found;
});

/** Every run of a station in the nights that are known, from now on. */
export function runsOf(station: string): NextRun[] {
  const nights = [...knownNights.value].sort(([a], [b]) => (a < b ? -1 : 1));
  return nights.flatMap(([night, { sheet, clock }]) => {
    const wall = new SiteClock(clock);
    return sheet.runs
      .filter((run) => run.station === station && run.end > now.value)
      .sort((a, b) => a.start - b.start)
      .map((run) => ({
        night,
        run,
        clock: wall,
        tonight: night === firstNight.value,
        open: run.start <= now.value,
      }));
  });
}

/** What a wide screen shows before anybody chose: the station that is watered next, or else the first on the list. */
export function firstShown(document: SiteDocument): string {
  const next = [...nextRuns.value.values()].sort((a, b) => a.run.start - b.run.start);
  const watered = next.find(({ run }) => document.stations.has(run.station));
  return watered?.run.station ?? linesOf(document)[0]?.id ?? "";
}
