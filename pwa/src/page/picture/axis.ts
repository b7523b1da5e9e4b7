/** The time axis: how much of the night is drawn, and where its hours stand. x is elapsed time, labels are the site's wall. */

import type { NightSheet } from "../night/sheet";
import type { Mark, SiteClock } from "../site/clock";

export interface Stretch {
  from: number;
  to: number;
}

export interface Tick {
  at: number;
  wall: Date;
  mark: Mark;
}

const HOUR = 3600;
const SHORTEST = 6 * HOUR;

/** From an hour before water may flow to an hour after, on whole hours of the wall; never the empty afternoon. */
export function stretchOf(sheet: NightSheet, clock: SiteClock): Stretch {
  const free = freeStretch(sheet);
  const starts = sheet.runs.map((run) => run.start);
  const ends = sheet.runs.map((run) => run.end);
  const from = hourBefore(Math.min(free.from, ...starts) - HOUR, clock);
  const to = hourBefore(Math.max(free.to, ...ends) + 2 * HOUR - 1, clock);
  const missing = Math.max(0, SHORTEST - (to - from));
  return { from: Math.max(sheet.starts, from), to: Math.min(sheet.ends, to + missing) };
}

/** What is left of the night after the spans in which the whole site is closed at its two ends. */
export function freeStretch(sheet: NightSheet): Stretch {
  const closed = sheet.closed.filter((span) => span.supply === null && span.whole);
  let { starts: from, ends: to } = sheet;
  for (const span of [...closed].sort((a, b) => a.start - b.start))
    if (span.start <= from) from = Math.max(from, span.end);
  for (const span of [...closed].sort((a, b) => b.end - a.end)) if (span.end >= to) to = Math.min(to, span.start);
  return from < to ? { from, to } : { from: sheet.starts, to: sheet.ends };
}

function hourBefore(instant: number, clock: SiteClock): number {
  const wall = clock.wall(instant);
  return instant - wall.getUTCMinutes() * 60 - wall.getUTCSeconds();
}

/** Every whole hour of the wall. An hour that comes twice has two ticks, one that is missing none. */
export function hourTicks({ from, to }: Stretch, clock: SiteClock): Tick[] {
  const ticks: Tick[] = [];
  const quarter = 900;
  for (let at = Math.ceil(from / quarter) * quarter; at <= to; at += quarter) {
    const wall = clock.wall(at);
    if (wall.getUTCMinutes() === 0) ticks.push({ at, wall, mark: clock.mark(at) });
  }
  return ticks;
}

/** Hour labels keep so far from the time it is now; farther where that bears the half of its day. */
export const CLEAR_PX = { bare: 34, halved: 50 };

/** Ticks whose labels stand at least `apart` pixels from each other; an hour that comes twice is labelled first. */
export function labelled(
  ticks: readonly Tick[],
  x: (at: number) => number,
  apart: number,
  clear: readonly number[],
  clearPx = CLEAR_PX.bare,
): Tick[] {
  const every = [1, 2, 3, 4, 6].find((hours) => spacing(ticks, x) * hours >= apart) ?? 6;
  const taken: Tick[] = [];
  const free = (tick: Tick) =>
    clear.every((other) => Math.abs(other - x(tick.at)) >= clearPx) &&
    taken.every((other) => Math.abs(x(other.at) - x(tick.at)) >= apart);
  const doubled = ticks.filter((tick) => tick.mark !== "");
  const onBeat = ticks.filter((tick) => tick.wall.getUTCHours() % every === 0);
  for (const tick of [...doubled, ...onBeat]) if (free(tick)) taken.push(tick);
  return taken.sort((a, b) => a.at - b.at);
}

function spacing(ticks: readonly Tick[], x: (at: number) => number): number {
  const [first, second] = ticks;
  return first && second ? Math.abs(x(second.at) - x(first.at)) : 0;
}
