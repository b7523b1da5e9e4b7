/** What Ahead says of nights: what is unusual about each, how full it is, and which programs meet in it. Plain facts. */

import { shortVolume, sum } from "../night/moments";
import type { KnownNight } from "../night/nights";
import type { ClosedSpan, NightSheet, Run, Shortfall } from "../night/sheet";
import { freeStretch } from "../picture/axis";
import { SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { dayAfter } from "../words/moments";

/** A night as Ahead reads it; `sayFor` and the like take it as it is. */
export interface AheadNight {
  date: string;
  document: SiteDocument;
  sheet: NightSheet;
  clock: SiteClock;
  from: KnownNight["from"];
  behind: boolean;
}

export const NIGHTS = 14;

/** The dates on show: two weeks from tonight; where tonight is not known, from the first night that is. */
export function datesFrom(tonight: string, known: Iterable<string>): string[] {
  const first = tonight || [...known].sort()[0];
  return first ? Array.from({ length: NIGHTS }, (_, days) => dayAfter(first, days)) : [];
}

export function aheadNight(date: string, known: KnownNight, document: SiteDocument): AheadNight {
  const { sheet, clock, from, behind } = known;
  return { date, document, sheet, clock: new SiteClock(clock), from, behind };
}

/** Whoever waters in a night: a program by its id, or null for what was asked for by station. */
export type Who = string | null;

/** What one program does in a night. */
export interface Share {
  runs: Run[];
  shortfalls: Shortfall[];
  /** Instants; null where it does not run. */
  first: number | null;
  last: number | null;
  volumeL: number;
  shortL: number;
}

export function shareOf(sheet: NightSheet, who?: Who): Share {
  const mine = (item: { program: string | null }) => who === undefined || item.program === who;
  const runs = sheet.runs.filter(mine);
  const shortfalls = sheet.shortfalls.filter(mine);
  return {
    runs,
    shortfalls,
    first: runs.length ? Math.min(...runs.map((run) => run.start)) : null,
    last: runs.length ? Math.max(...runs.map((run) => run.end)) : null,
    volumeL: sum(runs.map((run) => run.volume_l)),
    shortL: shortVolume(shortfalls),
  };
}

/** Closures met on this share of nights are the rule: they are said once, not on each night. */
const RULE = 0.4;

export function usualClosures(nights: readonly { sheet: NightSheet }[]): Set<string> {
  if (nights.length < 3) return new Set();
  const met = new Map<string, number>();
  for (const { sheet } of nights)
    for (const closure of new Set(closedInFree(sheet).map((span) => span.closure ?? "")))
      met.set(closure, (met.get(closure) ?? 0) + 1);
  return new Set([...met].filter(([, count]) => count >= nights.length * RULE).map(([closure]) => closure));
}

/** Closures that take hours away in which water might flow, each once, the first to begin first. */
export function closedInFree(sheet: NightSheet): ClosedSpan[] {
  const free = freeStretch(sheet);
  const spans = sheet.closed
    .filter((span) => span.closure !== null && span.start < free.to && span.end > free.from)
    .sort((a, b) => a.start - b.start || a.end - b.end);
  const seen = new Set<string>();
  return spans.filter(({ closure, start, end }) => {
    const key = `${closure} ${start} ${end}`;
    return !seen.has(key) && seen.add(key);
  });
}

/** How a closure lies in the hours in which water may flow: the words for it follow. */
export function reach(span: ClosedSpan, sheet: NightSheet): "all" | "until" | "from" | "within" {
  const free = freeStretch(sheet);
  const early = span.start <= free.from;
  const late = span.end >= free.to;
  return early && late ? "all" : early ? "until" : late ? "from" : "within";
}

/** The share of what all supplies could give in the open hours that this night takes; null where no limit says. */
export function fullness(sheet: NightSheet, limitLpm: number | null): number | null {
  const free = freeStretch(sheet);
  const most = ((limitLpm ?? 0) * (free.to - free.from)) / 60;
  return most > 0 ? sheet.volume_l / most : null;
}

/** When most programs water at once, and how many. */
export function mostAtOnce(runs: readonly Run[]): { count: number; at: number } | null {
  let best: { count: number; at: number } | null = null;
  for (const { start } of [...runs].sort((a, b) => a.start - b.start)) {
    const open = runs.filter((run) => run.program && run.start <= start && run.end > start);
    const count = new Set(open.map((run) => run.program)).size;
    if (count > (best?.count ?? 1)) best = { count, at: start };
  }
  return best;
}

export interface Meeting {
  program: string;
  start: number;
  end: number;
}

/** The programs that water while this one does, with the first moment and the last at which both do. */
export function meetings(sheet: NightSheet, who: Who): Meeting[] {
  const mine = sheet.runs.filter((run) => run.program === who);
  const found = new Map<string, Meeting>();
  for (const other of sheet.runs) {
    if (!other.program || other.program === who) continue;
    for (const run of mine) {
      const start = Math.max(run.start, other.start);
      const end = Math.min(run.end, other.end);
      if (start >= end) continue;
      const before = found.get(other.program);
      const program = other.program;
      if (!before) found.set(program, { program, start, end });
      else found.set(program, { program, start: Math.min(before.start, start), end: Math.max(before.end, end) });
    }
  }
  return [...found.values()].sort((a, b) => a.start - b.start || (a.program < b.program ? -1 : 1));
}

/** Stations that more than one program waters in the same night: often meant, sometimes a slip. */
export function wateredTwice(sheet: NightSheet): { station: string; programs: string[] }[] {
  const found = new Map<string, Set<string>>();
  for (const { station, program } of [...sheet.runs, ...sheet.shortfalls])
    if (program) found.set(station, (found.get(station) ?? new Set()).add(program));
  return [...found]
    .filter(([, programs]) => programs.size > 1)
    .map(([station, programs]) => ({ station, programs: [...programs] }));
}
