/** What ran against the plan, by what valves, power and people told. What nobody told of is not judged.
 *
 * The server reckons water by the same rules and more (`engine/journal/delivered.py`); here only time is told. */

import { type NightSheet, type Run, runKey } from "../night/sheet";
import type { SiteDocument } from "../site/document";
import type { Entry } from "./shapes";

/** An opening that overlaps no run belongs to the nearest one within so long. Common practice, no source. */
const NEAR_S = 30 * 60;
/** A valve that opens or closes so much beside its time is in time. Common practice, no source. */
const IN_TIME_S = 60;

export interface Opening {
  start: number;
  /** Null: it is open still. */
  end: number | null;
}

export type Why = "power" | "shut" | "stopped" | null;

/** A run whose time has come: as planned, at another time or for less, or not at all. */
export interface Ran {
  run: Run;
  how: "as_planned" | "otherwise" | "not";
  spans: readonly Opening[];
  /** What happened meanwhile that may be behind it. */
  why: Why;
}

/** The runs that began before `now` and of which something was told, by their keys. */
export function ranOf(
  sheet: NightSheet,
  document: SiteDocument,
  entries: readonly Entry[],
  now: number,
): ReadonlyMap<string, Ran> {
  const told = entries
    .filter((one) => sheet.starts <= one.at && one.at <= Math.min(now, sheet.ends))
    .sort((one, other) => one.at - other.at || one.number - other.number);
  const due = sheet.runs.filter((run) => run.start < now);
  const openings = openingsBy(document, told);
  const belongs = assigned(sheet.runs, openings);
  const voices = voicesOf(document, told);
  const found = new Map<string, Ran>();
  for (const run of due) {
    const spans = belongs.get(runKey(run)) ?? [];
    if (!spans.length && !voices.some((one) => isVoiceOf(run, one))) continue;
    found.set(runKey(run), judged(run, spans, told, document, now));
  }
  return found;
}

/** For each station when its valve was open; a loss of power at its controller closes it. */
export function openingsBy(document: SiteDocument, told: readonly Entry[]): Map<string, Opening[]> {
  const found = new Map<string, Opening[]>();
  const open = new Map<string, Opening>();
  const close = (station: string, at: number) => {
    const one = open.get(station);
    if (one) one.end = at;
    open.delete(station);
  };
  for (const entry of told) {
    if (entry.kind === "opened" && entry.station && !open.has(entry.station)) {
      const opening: Opening = { start: entry.at, end: null };
      open.set(entry.station, opening);
      found.set(entry.station, [...(found.get(entry.station) ?? []), opening]);
    }
    if (entry.kind === "closed" && entry.station) close(entry.station, entry.at);
    if (entry.kind !== "power_lost") continue;
    for (const station of [...open.keys()]) {
      if (!entry.controller || controllerOf(document, station) === entry.controller) close(station, entry.at);
    }
  }
  return found;
}

function assigned(runs: readonly Run[], openings: ReadonlyMap<string, Opening[]>): Map<string, Opening[]> {
  const byStation = new Map<string, Run[]>();
  for (const run of runs) byStation.set(run.station, [...(byStation.get(run.station) ?? []), run]);
  const found = new Map<string, Opening[]>();
  for (const [station, own] of byStation) {
    for (const opening of openings.get(station) ?? []) {
      const run = nearest(own, opening);
      if (run) found.set(runKey(run), [...(found.get(runKey(run)) ?? []), opening]);
    }
  }
  return found;
}

function nearest(runs: readonly Run[], opening: Opening): Run | undefined {
  const apart = (run: Run) => Math.max(opening.start, run.start) - Math.min(opening.end ?? Infinity, run.end);
  const [first] = [...runs].sort((one, other) => apart(one) - apart(other) || one.start - other.start);
  return first && apart(first) <= NEAR_S ? first : undefined;
}

interface Voice {
  station: string | undefined;
  controller: string | undefined;
  at: number;
}

/** When controllers were heard, by themselves or by a valve of theirs. */
function voicesOf(document: SiteDocument, told: readonly Entry[]): Voice[] {
  return told.flatMap(({ kind, station, controller, at }) => {
    const valve = (kind === "opened" || kind === "closed") && station;
    const heard = valve ? controllerOf(document, station) : controller;
    return heard ? [{ station, controller: heard, at }] : [];
  });
}

function isVoiceOf(run: Run, { station, controller, at }: Voice): boolean {
  return run.start <= at && at <= run.end && (station === run.station || controller === run.controller);
}

function judged(run: Run, spans: readonly Opening[], told: readonly Entry[], document: SiteDocument, now: number): Ran {
  const [first, last] = [spans[0], spans.at(-1)];
  if (!first || !last) return { run, how: "not", spans, why: whyOf(run, run.start, told, document) };
  const end = last.end ?? now;
  const inTime = Math.abs(first.start - run.start) <= IN_TIME_S && end >= Math.min(run.end, now) - IN_TIME_S;
  const whole = spans.length === 1 && inTime && end <= run.end + IN_TIME_S;
  if (whole) return { run, how: "as_planned", spans, why: null };
  const from = first.start > run.start + IN_TIME_S ? run.start : end;
  return { run, how: "otherwise", spans, why: whyOf(run, from, told, document) };
}

/** What held at that time, or began within a minute of it. */
function whyOf(run: Run, at: number, told: readonly Entry[], document: SiteDocument): Why {
  const holds = new Map<string, boolean>();
  for (const entry of told) {
    if (entry.at > at + IN_TIME_S) break;
    const name = nameOf(entry, run, document);
    if (name) holds.set(name.what, name.is);
  }
  for (const why of ["power", "shut", "stopped"] as const) {
    if ([...holds].some(([what, is]) => is && what.startsWith(why))) return why;
  }
  return null;
}

function nameOf(entry: Entry, run: Run, document: SiteDocument): { what: string; is: boolean } | null {
  const { kind, controller, supply } = entry;
  if (kind === "power_lost" || kind === "power_back") {
    const ours = !controller || controller === run.controller;
    return ours ? { what: `power ${controller ?? ""}`, is: kind === "power_lost" } : null;
  }
  if (kind === "shut" || kind === "freed") {
    const ours = supply !== undefined && isAbove(document, supply, run.supply);
    return ours ? { what: `shut ${supply}`, is: kind === "shut" } : null;
  }
  if (kind === "stopped" || kind === "lifted") return { what: "stopped", is: kind === "stopped" };
  return null;
}

function isAbove(document: SiteDocument, upper: string, lower: string): boolean {
  const seen = new Set<string>();
  for (let at: string | null = lower; at && !seen.has(at); at = document.supplies.get(at)?.fedBy ?? null) {
    if (at === upper) return true;
    seen.add(at);
  }
  return false;
}

function controllerOf(document: SiteDocument, station: string): string | undefined {
  const found = document.record("stations", station)?.controller;
  return typeof found === "string" ? found : undefined;
}
