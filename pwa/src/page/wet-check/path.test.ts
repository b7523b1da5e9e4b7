/** Whether a walk's path is short, whole, and the same each time. */

import { describe, expect, it } from "vitest";
import { metresAlong, type Place } from "../place/place";
import { pathThrough, type Stopping, shortPath } from "./path";

/** So many metres north and east of a corner of made-up grounds. */
const at = (north: number, east: number): Place => ({
  latitude_deg: 38 + north / 111_320,
  longitude_deg: -9 + east / (111_320 * Math.cos((38 * Math.PI) / 180)),
});

const lengthOf = (path: readonly number[], places: readonly Place[]): number =>
  metresAlong(path.map((index) => places[index]).filter((place) => place !== undefined));

const stop = (id: string, number: string, part: string, place: Place | null = null): Stopping => ({
  id,
  number,
  part,
  place,
});

/** Numbers that look like chance and are the same on every machine (a multiplicative generator; its figures are from
 * memory, and any would do). */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

function someplaces(count: number, seed: number): Place[] {
  const next = chance(seed);
  return Array.from({ length: count }, () => at(next() * 400, next() * 400));
}

/** The shortest of all open paths that begin at the first place, by trying every one. */
function shortestOfAll(places: readonly Place[]): number {
  let best = Infinity;
  const go = (path: number[], left: number[]): void => {
    if (!left.length) best = Math.min(best, lengthOf(path, places));
    for (const next of left)
      go(
        [...path, next],
        left.filter((one) => one !== next),
      );
  };
  go([0], places.map((_, index) => index).slice(1));
  return best;
}

describe("a walk by place", () => {
  it("goes along a row of places in their order, however they are numbered", () => {
    const north = [0, 300, 100, 400, 200];
    expect(shortPath(north.map((metres) => at(metres, 0)))).toEqual([0, 2, 4, 1, 3]);
  });

  it("measures as the ground does", () => {
    expect(lengthOf([0, 1, 2], [at(0, 0), at(30, 40), at(30, 0)])).toBeCloseTo(50 + 40, 3);
  });

  it("turns about what crosses itself", () => {
    const places = [at(0, 0), at(0, 100), at(100, 0), at(100, 100), at(50, 210)];
    const path = shortPath(places);
    expect(lengthOf(path, places)).toBeCloseTo(shortestOfAll(places), 3);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])("is hardly longer than the shortest of all paths (grounds %i)", (seed) => {
    const places = someplaces(8, seed);
    expect(lengthOf(shortPath(places), places)).toBeLessThan(shortestOfAll(places) * 1.25);
  });

  it("passes every place once, begins at the first, and cannot be shortened by turning a stretch about", () => {
    const places = someplaces(120, 42);
    const path = shortPath(places);
    expect(path[0]).toBe(0);
    expect([...path].sort((a, b) => a - b)).toEqual(places.map((_, index) => index));
    const length = lengthOf(path, places);
    for (let from = 1; from < path.length - 1; from++) {
      for (let to = from + 1; to < path.length; to++) {
        const other = [...path.slice(0, from), ...path.slice(from, to + 1).reverse(), ...path.slice(to + 1)];
        expect(lengthOf(other, places)).toBeGreaterThan(length - 1e-3);
      }
    }
  });
});

describe("the order of a walk", () => {
  it("is by place where every station has one, begun at the lowest number", () => {
    const stops = [stop("c", "10", "B", at(0, 0)), stop("a", "2", "B", at(0, 200)), stop("b", "3", "B", at(0, 90))];
    expect(pathThrough(stops)).toEqual(["a", "b", "c"]);
  });

  it("is part by part, the one with the lowest number first, where one has none; what lies in no part comes last", () => {
    const stops = [
      stop("d", "1", "", at(0, 0)),
      stop("c", "110", "East"),
      stop("b", "12", "East", at(0, 5)),
      stop("a", "7", "South", at(0, 9)),
    ];
    expect(pathThrough(stops)).toEqual(["a", "b", "c", "d"]);
  });

  it("begins where somebody stands, and goes on from there", () => {
    const row = [0, 100, 200, 300].map((metres, n) => stop(`s${n}`, String(n), "A", at(metres, 0)));
    expect(pathThrough(row, at(310, 20))).toEqual(["s3", "s2", "s1", "s0"]);
    expect(pathThrough(row, at(-20, 0))).toEqual(["s0", "s1", "s2", "s3"]);
    expect(pathThrough(row.slice(0, 2), at(120, 0))).toEqual(["s1", "s0"]);
    expect(pathThrough([stop("x", "7", "A"), ...row], at(310, 20))[0]).toBe("s0");
  });

  it("is the same whichever way they are listed", () => {
    const places = someplaces(12, 5);
    const stops = places.map((place, n) => stop(`s${n}`, String(n), "A", place));
    expect(pathThrough([...stops].reverse())).toEqual(pathThrough(stops));
  });

  it("of two, one or none is theirs", () => {
    expect(pathThrough([])).toEqual([]);
    expect(pathThrough([stop("b", "2", "A", at(0, 0)), stop("a", "1", "A", at(1, 1))])).toEqual(["a", "b"]);
  });
});
