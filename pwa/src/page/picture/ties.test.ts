import { describe, expect, it } from "vitest";
import { aNight, aRun, aSite, HOUR, lisbon, NOON, supply } from "../night/builders";
import { sceneOf } from "./scene";
import { shownTies, tiePath, tiesOf } from "./ties";

const site = aSite(supply("source", 300));
const cycle = (turn: string, number: number, start: number) =>
  aRun({ turn, cycle: number, cycles: 3, start, end: start + 900 });
const runs = [
  cycle("a", 1, NOON + 10 * HOUR),
  cycle("a", 2, NOON + 11 * HOUR),
  cycle("a", 3, NOON + 12 * HOUR),
  cycle("b", 1, NOON + 10 * HOUR),
];
const sceneIn = (mirrored: boolean) => sceneOf(site, aNight(runs), lisbon(), { width: 900, wide: true, mirrored });

describe("ties", () => {
  it("lead from the end of a cycle to the start of the next one", () => {
    const scene = sceneIn(false);
    const ties = tiesOf(scene, false);
    expect(ties.map((tie) => tie.key)).toEqual(["a.2", "a.3"]);
    expect(ties[0]?.from.x).toBeCloseTo(scene.x(NOON + 10 * HOUR + 900), 6);
    expect(ties[0]?.to.x).toBeCloseTo(scene.x(NOON + 11 * HOUR), 6);
  });

  it("run the other way in right-to-left", () => {
    const [tie] = tiesOf(sceneIn(true), true);
    expect(tie && tie.from.x > tie.to.x).toBe(true);
    expect(tie && tiePath(tie)).toMatch(/^M[\d.]+ [\d.]+C/);
  });

  it("are drawn for one turn alone where they would tangle", () => {
    const ties = tiesOf(sceneIn(false), false);
    expect(shownTies(ties, true, undefined)).toHaveLength(2);
    expect(shownTies(ties, false, undefined)).toHaveLength(0);
    expect(shownTies(ties, false, "a")).toHaveLength(2);
    const many = Array.from({ length: 30 }, (_, place) => ({ ...ties[0], turn: String(place) })) as typeof ties;
    expect(shownTies(many, true, "3")).toHaveLength(1);
  });
});
