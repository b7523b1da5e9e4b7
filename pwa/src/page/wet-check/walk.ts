/** A walk through stations, one after the other: where it is, what was looked at, what was found. Plain values in, plain
 * values out; seconds, and instants in seconds since 1970 by the phone's clock. */

import type { Found } from "../journal/shapes";
import { started as begun, paused, standing, type Timer } from "./timer";

export type Fate = "ahead" | "checked" | "skipped";

/** Something found at a station, by the ids of what was kept of it. */
export interface Seen {
  entry: string;
  repair: string;
  found: Found;
  count: number;
}

export interface Stop {
  station: string;
  fate: Fate;
  seen: Seen[];
}

export interface Walk {
  owner: string;
  site: string;
  began: number;
  /** How long each station's water runs. */
  each_s: number;
  stops: Stop[];
  /** The stop somebody stands at. Beyond the last: the walk is over. */
  here: number;
  timer: Timer;
  ended: number | null;
}

export function newWalk(
  whose: { owner: string; site: string },
  stations: readonly string[],
  each_s: number,
  at: number,
): Walk {
  const stops = stations.map((station): Stop => ({ station, fate: "ahead", seen: [] }));
  return { ...whose, began: at, each_s, stops, here: 0, timer: standing(each_s), ended: null };
}

export function stopAt(walk: Walk): Stop | null {
  return walk.stops[walk.here] ?? null;
}

/** This one was looked at: on to the next. */
export function next(walk: Walk, at: number): Walk {
  return movedOn(walk, "checked", at);
}

/** This one was not looked at. Where something was found it was, whatever is pressed. */
export function skip(walk: Walk, at: number): Walk {
  return movedOn(walk, stopAt(walk)?.seen.length ? "checked" : "skipped", at);
}

/** To the one before; what was found there stays. From the end of a walk it goes on with the last. */
export function back(walk: Walk): Walk {
  return walk.here === 0 ? walk : { ...walk, here: walk.here - 1, timer: standing(walk.each_s), ended: null };
}

export function start(walk: Walk, at: number): Walk {
  return { ...walk, timer: begun(walk.timer, at) };
}

export function pause(walk: Walk, at: number): Walk {
  return { ...walk, timer: paused(walk.timer, at) };
}

/** Each station gets so long from now on, the one at hand too where its water is off. */
export function lasting(walk: Walk, each_s: number): Walk {
  return { ...walk, each_s, timer: walk.timer.since === null ? standing(each_s) : walk.timer };
}

/** Go straight to the summary; whatever is left stays ahead. */
export function end(walk: Walk, at: number): Walk {
  return { ...walk, here: walk.stops.length, timer: standing(walk.each_s), ended: at };
}

export function noted(walk: Walk, seen: Seen): Walk {
  return {
    ...walk,
    stops: walk.stops.map((stop, n) => (n === walk.here ? { ...stop, seen: [...stop.seen, seen] } : stop)),
  };
}

export function isOver(walk: Walk): boolean {
  return walk.here >= walk.stops.length;
}

/** Stations that are no longer at the site leave the walk. */
export function without(walk: Walk, there: (station: string) => boolean): Walk {
  const stops = walk.stops.filter((stop) => there(stop.station));
  if (stops.length === walk.stops.length) return walk;
  const gone = walk.stops.slice(0, walk.here).filter((stop) => !there(stop.station)).length;
  return { ...walk, stops, here: walk.here - gone };
}

export function count(walk: Walk, fate: Fate): number {
  return walk.stops.filter((stop) => stop.fate === fate).length;
}

function movedOn(walk: Walk, fate: Fate, at: number): Walk {
  const stops = walk.stops.map((stop, n) => (n === walk.here ? { ...stop, fate } : stop));
  const here = Math.min(walk.here + 1, stops.length);
  return { ...walk, stops, here, timer: standing(walk.each_s), ended: here === stops.length ? at : null };
}
