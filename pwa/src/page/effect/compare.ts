/** What lies between two sheets of one night: what moves by how much, what fits no more or fits again. Pure. */

import { byStart, shortVolume } from "../night/moments";
import { type NightSheet, type Run, runKey, type Shortfall } from "../night/sheet";
import type { Message } from "../words/say";

/** A run that starts at another time: by less than a minute nobody would notice. */
export interface Moved {
  key: string;
  run: Run;
  from: number;
  to: number;
}

/** A turn that falls short by another amount than before. */
export interface ShortChange {
  before: Shortfall;
  after: Shortfall;
}

export interface Comparison {
  night: string;
  before: NightSheet;
  after: NightSheet;
  /** In the order of their new starts. */
  moved: Moved[];
  /** Runs that start as before and end at another time. */
  resized: Moved[];
  fresh: Run[];
  gone: Run[];
  short: { fresh: Shortfall[]; gone: Shortfall[]; changed: ShortChange[] };
  notices: Message[];
}

const LEAST_S = 60;

export function compare(before: NightSheet, after: NightSheet): Comparison {
  const were = new Map(before.runs.map((run) => [runKey(run), run]));
  const are = new Map(after.runs.map((run) => [runKey(run), run]));
  const pairs = [...after.runs].sort(byStart).flatMap((run) => {
    const was = were.get(runKey(run));
    return was ? [{ was, run }] : [];
  });
  return {
    night: after.night,
    before,
    after,
    moved: pairs.filter(({ was, run }) => differs(was.start, run.start)).map(moveOf("start")),
    resized: pairs
      .filter(({ was, run }) => !differs(was.start, run.start) && differs(was.end, run.end))
      .map(moveOf("end")),
    fresh: [...after.runs].sort(byStart).filter((run) => !were.has(runKey(run))),
    gone: [...before.runs].sort(byStart).filter((run) => !are.has(runKey(run))),
    short: shortChanges(before.shortfalls, after.shortfalls),
    notices: newNotices(before.notices, after.notices),
  };
}

function differs(one: number, other: number): boolean {
  return Math.abs(one - other) >= LEAST_S;
}

const moveOf =
  (edge: "start" | "end") =>
  ({ was, run }: { was: Run; run: Run }): Moved => ({ key: runKey(run), run, from: was[edge], to: run[edge] });

function shortChanges(before: readonly Shortfall[], after: readonly Shortfall[]): Comparison["short"] {
  const were = new Map(before.map((item) => [item.turn, item]));
  const are = new Set(after.map((item) => item.turn));
  const both = after.flatMap((item) => {
    const was = were.get(item.turn);
    return was ? [{ before: was, after: item }] : [];
  });
  return {
    fresh: after.filter((item) => !were.has(item.turn)),
    gone: before.filter((item) => !are.has(item.turn)),
    changed: both.filter((pair) => Math.abs(pair.before.volume_l - pair.after.volume_l) >= 1),
  };
}

/** A notice is new where the same words were not said of the same things before. */
function newNotices(before: readonly Message[], after: readonly Message[]): Message[] {
  const said = new Set(before.map(wordsOf));
  return after.filter((notice) => !said.has(wordsOf(notice)));
}

function wordsOf({ code, params }: Message): string {
  return JSON.stringify([code, Object.entries(params).sort(([a], [b]) => (a < b ? -1 : 1))]);
}

/** By how many seconds the night ends later; null where one of the two has no end. */
export function finishLater({ before, after }: Pick<Comparison, "before" | "after">): number | null {
  return before.finish === null || after.finish === null ? null : after.finish - before.finish;
}

/** The least and the most by which runs move, later being positive. */
export function moveRange(moved: readonly Moved[]): { least: number; most: number } | null {
  if (moved.length === 0) return null;
  const by = moved.map(({ from, to }) => to - from);
  return { least: Math.min(...by), most: Math.max(...by) };
}

/** How much more water the night gives. */
export function moreVolume({ before, after }: Pick<Comparison, "before" | "after">): number {
  return after.volume_l - before.volume_l;
}

/** How much more water does not fit. */
export function moreShort({ before, after }: Pick<Comparison, "before" | "after">): number {
  return shortVolume(after.shortfalls) - shortVolume(before.shortfalls);
}

export function nothingChanges(found: Comparison): boolean {
  const { moved, resized, fresh, gone, short, notices } = found;
  const lists = [moved, resized, fresh, gone, short.fresh, short.gone, short.changed, notices];
  return lists.every((list) => list.length === 0) && !finishLater(found);
}
