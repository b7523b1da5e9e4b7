/** What a sheet says at an instant: what is open, what comes next, what comes later. */

import type { SiteDocument } from "../site/document";
import type { NightSheet, Run, Shortfall } from "./sheet";

export function byStart(a: Run, b: Run): number {
  return a.start - b.start || (a.station < b.station ? -1 : a.station > b.station ? 1 : a.cycle - b.cycle);
}

/** Runs in time order; those that start together by station. */
export function inOrder(sheet: NightSheet): Run[] {
  return [...sheet.runs].sort(byStart);
}

/** Open at this instant; the first to close first. */
export function openAt(sheet: NightSheet, instant: number): Run[] {
  return inOrder(sheet)
    .filter((run) => run.start <= instant && run.end > instant)
    .sort((a, b) => a.end - b.end);
}

export function toCome(sheet: NightSheet, instant: number): Run[] {
  return inOrder(sheet).filter((run) => run.start > instant);
}

export function nextRun(sheet: NightSheet, instant: number): Run | undefined {
  return toCome(sheet, instant)[0];
}

/** How much of a run is over, from 0 to 1, in whole minutes: bowls step once a minute. */
export function shareDone(run: Run, instant: number): number {
  const minutes = Math.floor((instant - run.start) / 60) * 60;
  return Math.min(1, Math.max(0, minutes / (run.end - run.start)));
}

export interface PlaceRuns {
  place: string;
  runs: Run[];
  volumeL: number;
}

/** Runs by the part of the grounds they are in, parts in the order in which water comes to them. */
export function byPlace(runs: readonly Run[], document: SiteDocument): PlaceRuns[] {
  const places = new Map<string, Run[]>();
  for (const run of runs) {
    const place = document.stations.get(run.station)?.part ?? "";
    places.set(place, [...(places.get(place) ?? []), run]);
  }
  return [...places].map(([place, found]) => ({ place, runs: found, volumeL: sum(found.map((run) => run.volume_l)) }));
}

export function shortVolume(shortfalls: readonly Shortfall[]): number {
  return sum(shortfalls.map((item) => item.volume_l));
}

export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
