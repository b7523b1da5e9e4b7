/** In which order a walk goes from station to station: along a short path where it is known where they lie. */

/** A place on the ground. Degrees; north and east are positive. */
export interface Place {
  latitude_deg: number;
  longitude_deg: number;
}

export interface Stopping {
  id: string;
  number: string;
  part: string;
  place: Place | null;
}

const METRES_A_DEGREE = 111_320;
/** So many stations are walked in a day at the most; beyond, the better path is not worth the phone's time. */
const MOST_TURNED = 400;

/** The stations' ids in the order of the walk. By place where every one has one; else part by part, by number. */
export function pathThrough(stops: readonly Stopping[]): string[] {
  const listed = byPartAndNumber(stops);
  const places = listed.map((stop) => stop.place);
  if (listed.length < 3 || places.some((place) => place === null)) return listed.map((stop) => stop.id);
  const order = shortPath(places as Place[]);
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

/** How long the walk along a path is, in metres. */
export function lengthOf(path: readonly number[], places: readonly Place[]): number {
  const between = distances(places);
  return path.slice(1).reduce((sum, place, before) => sum + between(path[before] ?? 0, place), 0);
}

type Between = (one: number, other: number) => number;

/** Grounds are small: the earth is flat there, and a degree of longitude as long as it is at the first place. */
function distances(places: readonly Place[]): Between {
  const narrowed = Math.cos(((places[0]?.latitude_deg ?? 0) * Math.PI) / 180);
  const points = places.map(({ latitude_deg, longitude_deg }) => [
    latitude_deg * METRES_A_DEGREE,
    longitude_deg * METRES_A_DEGREE * narrowed,
  ]);
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
