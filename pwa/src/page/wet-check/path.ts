/** In which order a walk goes from station to station: along a short path where it is known where they lie. */

import { onFlatGround, type Place } from "../place/place";

export interface Stopping {
  id: string;
  number: string;
  part: string;
  place: Place | null;
}

/** So many stations are walked in a day at the most; beyond, the better path is not worth the phone's time. */
const MOST_TURNED = 400;

/** The stations' ids in the order of the walk. By place where every one has one, from where somebody stands, else from
 * the one with the lowest number; without places part by part, by number. */
export function pathThrough(stops: readonly Stopping[], from: Place | null = null): string[] {
  const listed = byPartAndNumber(stops);
  const places = listed.map((stop) => stop.place).filter((place) => place !== null);
  const known = places.length === listed.length && (from ? places.length > 1 : places.length > 2);
  if (!known) return listed.map((stop) => stop.id);
  // Where one stands is the first place of the path, and no station.
  const order = from
    ? shortPath([from, ...places])
        .slice(1)
        .map((index) => index - 1)
    : shortPath(places);
  return order.map((index) => listed[index]?.id ?? "");
}

/** Part by part, in the order of their lowest numbers, each by number, as people count: 2 before 10. What lies in no part
 * comes last. */
export function byPartAndNumber(stops: readonly Stopping[]): Stopping[] {
  const { compare } = new Intl.Collator("en", { numeric: true });
  const byNumber = (a: Stopping, b: Stopping) => compare(a.number, b.number) || (a.id < b.id ? -1 : 1);
  const numbered = [...stops].sort(byNumber);
  const parts = [...new Set(numbered.map((stop) => stop.part))].filter(Boolean);
  return [...parts, ""].flatMap((part) => numbered.filter((stop) => stop.part === part));
}

/** The places' indexes along a short open path that begins at the first: to the nearest each time, then stretches of it
 * are turned about for as long as that shortens it (2-opt: G. A. Croes, A Method for Solving Traveling-Salesman
 * Problems, Operations Research 6, 1958). */
export function shortPath(places: readonly Place[]): number[] {
  const between = distances(places);
  const path = nearestEachTime(places.length, between);
  if (path.length <= MOST_TURNED) turnAbout(path, between);
  return path;
}

type Between = (one: number, other: number) => number;

function distances(places: readonly Place[]): Between {
  const points = onFlatGround(places);
  return (one, other) => {
    const [north = 0, east = 0] = points[one] ?? [];
    const [otherNorth = 0, otherEast = 0] = points[other] ?? [];
    return Math.hypot(north - otherNorth, east - otherEast);
  };
}

function nearestEachTime(count: number, between: Between): number[] {
  const path = [0];
  const left = new Set(Array.from({ length: count - 1 }, (_, index) => index + 1));
  while (left.size) {
    const here = path.at(-1) ?? 0;
    const next = [...left].reduce((best, place) => (between(here, place) < between(here, best) ? place : best));
    left.delete(next);
    path.push(next);
  }
  return path;
}

/** The first place stays first: there the walk begins. */
function turnAbout(path: number[], between: Between): void {
  for (let shorter = true; shorter; ) {
    shorter = false;
    for (let from = 1; from < path.length - 1; from++) {
      for (let to = from + 1; to < path.length; to++) shorter = turned(path, from, to, between) || shorter;
    }
  }
}

const WORTH_M = 1e-6;

function turned(path: number[], from: number, to: number, between: Between): boolean {
  const [before = 0, first = 0, last = 0] = [path[from - 1], path[from], path[to]];
  const after = path[to + 1];
  const now = between(before, first) + (after === undefined ? 0 : between(last, after));
  const then = between(before, last) + (after === undefined ? 0 : between(first, after));
  if (then > now - WORTH_M) return false;
  path.splice(from, to - from + 1, ...path.slice(from, to + 1).reverse());
  return true;
}
