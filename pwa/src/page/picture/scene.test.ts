import { describe, expect, it } from "vitest";
import { aNight, aRun, aSite, HOUR, lisbon, NOON, supply } from "../night/builders";
import { sceneOf } from "./scene";

const site = aSite(supply("town", 600), supply("north", 320, "town"), supply("south", 260, "town"));
const runs = [
  aRun({ turn: "a", supply: "north", flow_lpm: 80, start: NOON + 10 * HOUR, end: NOON + 11 * HOUR }),
  aRun({ turn: "b", supply: "south", flow_lpm: 45.5, start: NOON + 13 * HOUR, end: NOON + 13.5 * HOUR }),
];
const frame = { width: 900, wide: true, mirrored: false };

describe("sceneOf", () => {
  it("draws volume as area, by one scale in all lanes", () => {
    const scene = sceneOf(site, aNight(runs), lisbon(), frame);
    const perLitre = scene.pxPerLpm * scene.pxPerMinute;
    expect(scene.blocks).toHaveLength(2);
    for (const { run, pieces } of scene.blocks) {
      const area = pieces.reduce((sum, piece) => sum + piece.width * piece.height, 0);
      expect(area / run.volume_l).toBeCloseTo(perLitre, 9);
    }
  });

  it("mirrors time in right-to-left, and nothing else", () => {
    const plain = sceneOf(site, aNight(runs), lisbon(), frame);
    const mirrored = sceneOf(site, aNight(runs), lisbon(), { ...frame, mirrored: true });
    const [one] = plain.blocks[0]?.pieces ?? [];
    const [other] = mirrored.blocks[0]?.pieces ?? [];
    expect(other?.x).toBeCloseTo(900 - (one?.x ?? 0) - (one?.width ?? 0), 6);
    expect(other?.y).toBe(one?.y);
    expect(mirrored.x(NOON + 11 * HOUR)).toBeLessThan(mirrored.x(NOON + 10 * HOUR));
  });

  it("shows a closure of a main inside the lane as a ribbon, one of the lane or its source as a hatch", () => {
    const shared = aSite(supply("plant", 500), supply("north", 320, "plant"), supply("south", 260, "plant"));
    const span = { closure: "k", whole: true, start: NOON + 12 * HOUR, end: NOON + 13 * HOUR };
    const closed = [
      { ...span, supply: "north" },
      { ...span, supply: "plant", closure: "l", start: NOON + 14 * HOUR, end: NOON + 15 * HOUR },
    ];
    const hatches = sceneOf(shared, aNight(runs, closed), lisbon(), frame).lanes[0]?.hatches ?? [];
    expect(hatches.map((hatch) => [hatch.closure, hatch.ribbon])).toEqual([
      ["l", false],
      ["k", true],
    ]);
  });

  it("draws what did not fit true to size, past the hours of water", () => {
    const night = aNight(runs, [
      { closure: null, supply: null, whole: true, start: NOON + 19 * HOUR, end: NOON + 25 * HOUR },
    ]);
    night.shortfalls = [
      {
        turn: "c",
        station: "s",
        program: null,
        supply: "south",
        cycles: 1,
        run_s: 1800,
        volume_l: 1500,
        why: { code: "x", params: {} },
      },
    ];
    const scene = sceneOf(site, night, lisbon(), frame);
    const [missing] = scene.missing;
    expect((missing?.piece.width ?? 0) * (missing?.piece.height ?? 0)).toBeCloseTo(
      1500 * scene.pxPerLpm * scene.pxPerMinute,
      6,
    );
    expect(missing?.piece.x).toBeCloseTo(scene.x(NOON + 19 * HOUR), 6);
  });
});
