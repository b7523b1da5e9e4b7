import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SiteRecord } from "../site/document";
import { moved, turnsOf } from "./order";
import { Records } from "./records";

const turn = (id: string, position: number): SiteRecord => ({ table: "turns", id, program: "p", position });

describe("moving a turn", () => {
  it("changes one position where there is room", () => {
    const turns = [turn("a", 10), turn("b", 20), turn("c", 30)];
    expect([...moved(turns, 2, 1)]).toEqual([["c", 15]]);
    expect([...moved(turns, 0, 2)]).toEqual([["a", 40]]);
  });

  it("does nothing beyond either end", () => {
    expect(moved([turn("a", 10)], 0, -1).size).toBe(0);
    expect(moved([turn("a", 10)], 0, 1).size).toBe(0);
  });

  it("gives the order asked for, whatever the positions were", () => {
    const places = fc.array(fc.integer({ min: 0, max: 100_000 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(places, fc.nat(11), fc.nat(11), (positions, from, to) => {
        const turns = turnsOf(new Records(positions.map((position, index) => turn(`t${index}`, position))), "p");
        if (from >= turns.length || to >= turns.length) return;
        const wanted = turns.map(({ id }) => id);
        wanted.splice(to, 0, ...wanted.splice(from, 1));
        const changed = moved(turns, from, to);
        const after = turns.map((one) => ({ ...one, position: changed.get(one.id) ?? Number(one.position) }));
        expect(turnsOf(new Records(after), "p").map(({ id }) => id)).toEqual(wanted);
        expect(Math.max(...after.map(({ position }) => position))).toBeLessThanOrEqual(100_000);
      }),
    );
  });
});
