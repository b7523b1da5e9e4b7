/** When the ground at a station, or in a part of the grounds, gets no water by the plan. Instants are whole seconds since 1970. */

import type { SiteDocument } from "../site/document";
import { byStart } from "./moments";
import type { NightSheet, Run } from "./sheet";

/** What is asked about: one station, or every station of a part. */
export type Subject = { station: string } | { part: string };

/** A span in which water runs there without a break. */
export interface Wet {
  start: number;
  end: number;
  runs: Run[];
}

export interface DryCheck {
  /** The first span of water before the time asked for; null: dry until then. */
  wet: Wet | null;
  /** The night ends before the time asked for: more is not known here. */
  beyond: boolean;
}

export function runsAt(sheet: NightSheet, document: SiteDocument, subject: Subject): Run[] {
  const meant = (run: Run) =>
    "station" in subject ? run.station === subject.station : document.stations.get(run.station)?.part === subject.part;
  return sheet.runs.filter(meant).sort(byStart);
}

/** The spans of water, those that touch as one. */
export function wetSpans(runs: readonly Run[]): Wet[] {
  const spans: Wet[] = [];
  for (const run of [...runs].sort(byStart)) {
    const last = spans[spans.length - 1];
    if (last && run.start <= last.end) {
      last.end = Math.max(last.end, run.end);
      last.runs.push(run);
    } else spans.push({ start: run.start, end: run.end, runs: [run] });
  }
  return spans;
}

/** What is left of the spans from an instant on. */
export function wetFrom(spans: readonly Wet[], instant: number): Wet[] {
  return spans.filter((span) => span.end > instant);
}

/** Whether it stays dry from one instant until another. */
export function dryUntil(spans: readonly Wet[], from: number, until: number, nightEnds: number): DryCheck {
  const wet = spans.find((span) => span.end > from && span.start < until) ?? null;
  return { wet, beyond: wet === null && until > nightEnds };
}

/**
 * The instant of a wall time (`HH:MM`) in the night: the first at or after `from`. Where the clock goes back the first
 * passing is meant, unless it is over; an hour that is left out is read as the moment of the leap. Null: not this night.
 */
export function instantOf(clock: SiteWall, typed: string, from: number, nightEnds: number): number | null {
  const match = /^(\d{1,2}):(\d{2})/.exec(typed);
  if (!match) return null;
  const wanted = (Number(match[1]) * 60 + Number(match[2])) % DAY_MIN;
  for (let at = Math.ceil(from / 60) * 60; at <= nightEnds; at += 60) {
    if (minuteOf(clock.wall(at)) === wanted) return at;
    const leap = clock.changes.find((change) => change.at === at && change.after_s > change.before_s);
    if (leap && skips(clock.wall(at), (leap.after_s - leap.before_s) / 60, wanted)) return at;
  }
  return null;
}

interface SiteWall {
  wall(instant: number): Date;
  readonly changes: readonly { at: number; before_s: number; after_s: number }[];
}

const DAY_MIN = 1440;

function minuteOf(wall: Date): number {
  return wall.getUTCHours() * 60 + wall.getUTCMinutes();
}

/** Whether a wall minute lies in what the clock left out when it leapt to this wall time. */
function skips(landed: Date, leapt: number, wanted: number): boolean {
  const ago = (minuteOf(landed) - wanted + DAY_MIN) % DAY_MIN;
  return ago > 0 && ago <= leapt;
}
