/** The one lane of the night that a change is about, and what flowed in it before, for a picture of both. */

import { byStart } from "../night/moments";
import type { LoadedNight } from "../night/night";
import type { NightSheet, Run } from "../night/sheet";
import { lanesOf } from "../picture/lanes";
import type { Scene } from "../picture/scene";
import type { Effect } from "./effect";

/** How high the reflection of before stands under the floor, beside what stands above it. */
export const REFLECTED = 0.42;

export interface LaneAfter {
  night: LoadedNight;
  before: Run[];
}

/** The lane with the runs of `turn`, or the one in which most moves; null where the night has no water at all. */
export function laneAfter({ comparison, document, clock, clockData }: Effect, turn: string | null): LaneAfter | null {
  const { before, after } = comparison;
  const all = [...after.runs, ...after.shortfalls, ...before.runs];
  const supply = (all.find((item) => item.turn === turn) ?? comparison.moved[0]?.run ?? all[0])?.supply;
  const lane = lanesOf(document, after).find((one) => supply !== undefined && one.supplies.has(supply));
  if (!lane) return null;
  const inLane = <Item extends { supply: string }>(item: Item) => lane.supplies.has(item.supply);
  const sheet: NightSheet = { ...after, runs: after.runs.filter(inLane), shortfalls: after.shortfalls.filter(inLane) };
  return {
    night: { site: after.site, document, sheet, clock, clockData },
    before: before.runs.filter(inLane).sort(byStart),
  };
}

/** Steps of the flow that was, as (instant, litres a minute from then on). */
export function flowSteps(runs: readonly Run[]): [number, number][] {
  const changes = new Map<number, number>();
  for (const run of runs) {
    changes.set(run.start, (changes.get(run.start) ?? 0) + run.flow_lpm);
    changes.set(run.end, (changes.get(run.end) ?? 0) - run.flow_lpm);
  }
  let flow = 0;
  return [...changes]
    .sort(([a], [b]) => a - b)
    .map(([at, by]) => {
      flow += by;
      return [at, flow];
    });
}

/** The outline of what flowed before, hanging from the floor like a reflection in water. */
export function reflectionPath(runs: readonly Run[], scene: Pick<Scene, "x" | "pxPerLpm">, floor: number): string {
  const steps = flowSteps(runs);
  const first = steps[0];
  if (!first) return "";
  const depth = (flow: number) => floor + flow * scene.pxPerLpm * REFLECTED;
  const path = steps.map(([at, flow]) => `H${scene.x(at)}V${depth(flow)}`).join("");
  return `M${scene.x(first[0])} ${floor}${path}V${floor}Z`;
}
