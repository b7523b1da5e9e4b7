/** What pages of a pull do to a copy: stored together with their cursor, or not at all. */

import type { NightSheet } from "../night/sheet";
import type { ClockData } from "../site/clock";
import {
  type Head,
  type Kept,
  type KeptNight,
  keyOf,
  type Overlaid,
  type PulledRecord,
  type Removal,
  type Removed,
} from "./kept";
import type { Role, Waiting } from "./shapes";

export interface NightsAhead {
  next: number;
  revision: number;
  tonight: string;
  sheets: NightSheet[];
  clocks: ClockData[];
}

export interface Page {
  site: string;
  fresh: boolean;
  first: boolean;
  cursor: number;
  scope: string;
  next: string | null;
  revision: number;
  format: number;
  role: Role | null;
  records: PulledRecord[];
  removals: Removal[];
  waiting: Waiting[];
  people: Record<string, string>;
  sheets: NightsAhead | null;
}

/** Where a pull started: it counts only where the copy still stands there when its pages have come. */
export interface Asked {
  cursor: number | null;
  scope: string | null;
  sheets: number;
}

/** The pages that belong together: those before one that begins anew are dropped. */
export function together(pages: readonly Page[]): Page[] {
  const begins = pages.findLastIndex((page) => page.first);
  return pages.slice(Math.max(begins, 0));
}

export interface Taken {
  kept: Kept;
  /** Everything stored of the site gives way. */
  fresh: boolean;
  records: string[];
  removed: string[];
  waiting: string[];
  nights: string[];
  /** Whether an answered edit is to stay laid over the copy. */
  stillOver: (edit: Overlaid) => boolean;
}

/** The copy after these pages, and which rows they have touched. A cursor that would fall changes nothing: null. */
export function takePull(kept: Kept, given: readonly Page[]): Taken | null {
  const pages = together(given);
  const [first, last] = [pages[0], pages.at(-1)];
  if (!first || !last) return null;
  if (!first.fresh && (kept.head === null || last.cursor < kept.head.cursor)) return null;
  const base = first.fresh ? emptied(kept) : kept;
  const records = new Map(base.records);
  const removed = new Map(base.removed);
  const waiting = new Map(base.waiting);
  const touched = { records: new Set<string>(), removed: new Set<string>(), waiting: new Set<string>() };
  for (const page of pages) {
    for (const one of page.records) arrive(records, removed, touched, one);
    for (const one of page.removals) leave(records, removed, touched, one, kept.overlaid);
    for (const one of page.waiting) {
      waiting.set(one.edit.id, one);
      touched.waiting.add(one.edit.id);
    }
  }
  const nights = nightsAfter(kept.nights, last.sheets);
  const anew = anotherEpoch(kept.head, last);
  const stillOver = (edit: Overlaid) => edit.site !== kept.site || (!anew && edit.revision > last.cursor);
  return {
    kept: {
      ...kept,
      head: headAfter(base.head, pages, last),
      records,
      removed,
      waiting,
      overlaid: kept.overlaid.filter(stillOver),
      nights,
    },
    fresh: first.fresh,
    records: [...touched.records],
    removed: [...touched.removed],
    waiting: [...touched.waiting],
    nights: last.sheets?.sheets.map((sheet) => sheet.night) ?? [],
    stillOver,
  };
}

/** After the server's restore its revisions mean other things: no answer from before can be waited for. */
function anotherEpoch(before: Head | null, last: Page): boolean {
  return before !== null && before.scope.split(".")[0] !== last.scope.split(".")[0];
}

function emptied(kept: Kept): Kept {
  return { ...kept, head: null, records: new Map(), removed: new Map(), waiting: new Map() };
}

interface Touched {
  records: Set<string>;
  removed: Set<string>;
}

function arrive(
  records: Map<string, PulledRecord>,
  removed: Map<string, Removed>,
  touched: Touched,
  pulled: PulledRecord,
): void {
  const key = keyOf(pulled.record.table, pulled.record.id);
  records.set(key, pulled);
  if (removed.delete(key)) touched.removed.add(key);
  touched.records.add(key);
}

function leave(
  records: Map<string, PulledRecord>,
  removed: Map<string, Removed>,
  touched: Touched,
  removal: Removal,
  own: readonly Overlaid[],
): void {
  const key = keyOf(removal.table, removal.id);
  const last = records.get(key)?.record ?? removed.get(key)?.last ?? null;
  const known = records.get(key)?.versions ?? removed.get(key)?.versions;
  removed.set(key, { ...removal, last, versions: { ...known, ...ownVersions(own, key) } });
  records.delete(key);
  touched.records.add(key);
  touched.removed.add(key);
}

/** What one's own edits, answered but never pulled, have made of a record's fields. */
function ownVersions(own: readonly Overlaid[], key: string): Record<string, number> {
  const theirs = own.filter((edit) => keyOf(edit.table, edit.record) === key && edit.field !== null && edit.version);
  return Object.fromEntries(theirs.map((edit) => [edit.field ?? "", edit.version ?? 1]));
}

function headAfter(before: Head | null, pages: readonly Page[], last: Page): Head {
  const people = pages.reduce((all, page) => Object.assign(all, page.people), { ...before?.people });
  return {
    cursor: last.cursor,
    scope: last.scope,
    revision: last.revision,
    format: last.format,
    role: last.role,
    people,
    sheets: last.sheets?.next ?? before?.sheets ?? 0,
    planned: last.sheets?.revision ?? before?.planned ?? 0,
    tonight: last.sheets?.tonight || before?.tonight || "",
  };
}

function nightsAfter(before: ReadonlyMap<string, KeptNight>, ahead: NightsAhead | null): Map<string, KeptNight> {
  const nights = new Map(before);
  for (const sheet of ahead?.sheets ?? []) {
    const clock = ahead?.clocks.find((one) => one.night === sheet.night);
    if (clock) nights.set(sheet.night, { night: sheet.night, sheet, clock, good_for: 0 });
  }
  return nights;
}
