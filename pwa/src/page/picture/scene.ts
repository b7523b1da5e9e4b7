/** Lays the night out in pixels: one scale for all lanes, so that area is volume everywhere. Draws nothing itself. */

import { type NightSheet, type Run, runKey, type Shortfall } from "../night/sheet";
import type { ClockData, SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { freeStretch, hourTicks, type Stretch, stretchOf, type Tick } from "./axis";
import { closedIn, type LaneClosed } from "./closed";
import { type Lane, lanesOf } from "./lanes";
import type { Piece } from "./outline";
import { type Item, type Step, stack } from "./shelves";

export interface Frame {
  width: number;
  wide: boolean;
  mirrored: boolean;
  /** One lane alone, as high as there is room and scrolled sideways. */
  only?: string | null;
}

export interface Block {
  key: string;
  run: Run;
  lane: number;
  pieces: Piece[];
}

export interface Missing {
  shortfall: Shortfall;
  piece: Piece;
}

export interface Hatch {
  closure: string | null;
  piece: Piece;
  /** Only some of the lane's stations are meant: a ribbon above the limit line. */
  ribbon: boolean;
}

export interface LaneScene {
  lane: Lane;
  nameY: number;
  top: number;
  floor: number;
  hatches: Hatch[];
}

export interface Scene {
  width: number;
  height: number;
  pxPerLpm: number;
  pxPerMinute: number;
  stretch: Stretch;
  free: Stretch;
  ticks: Tick[];
  lanes: LaneScene[];
  blocks: Block[];
  missing: Missing[];
  x(at: number): number;
}

export const AXIS_PX = 34;
const NAME_PX = 26;
const RIBBON_PX = 7;
const BETWEEN_PX = 12;
/** Height given to all limits together, and the most a litre a minute may take: small sites need no giants. */
const ROOM = {
  desk: { all: 430, each: 0.74 },
  tablet: { all: 340, each: 0.6 },
  phone: { all: 150, each: 0.42 },
  lane: { all: 280, each: 1.1 },
};
const PHONE_PX = 560;
/** A lane alone is scrolled at so many pixels an hour. */
const LANE_HOUR_PX = 70;

export function sceneOf(document: SiteDocument, sheet: NightSheet, clock: SiteClock, frame: Frame): Scene {
  const stretch = stretchOf(sheet, clock);
  const width = widthOf(frame, stretch);
  const pxPerS = width / (stretch.to - stretch.from);
  const along = (at: number) => (at - stretch.from) * pxPerS;
  const x = (at: number) => (frame.mirrored ? width - along(at) : along(at));
  const lanes = lanesOf(document, sheet).filter((lane) => !frame.only || lane.supply === frame.only);
  const stacked = lanes.map((lane) => stackLane(lane, sheet));
  const pxPerLpm = scaleOf(
    stacked.map((one) => one.limit),
    frame,
  );
  const ribbonPx = RIBBON_PX + (frame.wide ? 8 : 2);
  const base: Base = { sheet, document, x, pxPerLpm, stretch, ribbonPx, free: freeStretch(sheet) };
  const placed = placeLanes(lanes, stacked, base);
  return {
    ...base,
    width,
    height: placed.height,
    pxPerMinute: pxPerS * 60,
    ticks: hourTicks(stretch, clock),
    lanes: placed.lanes,
    blocks: placed.blocks,
    missing: placed.lanes.flatMap((lane) => missingIn(lane, base)),
  };
}

function widthOf({ width, only }: Frame, { from, to }: Stretch): number {
  return only ? Math.max(width, Math.round(((to - from) / 3600) * LANE_HOUR_PX)) : width;
}

interface Stacked {
  limit: number;
  runs: Run[];
  steps: Map<string, Step[]>;
}

interface Base {
  stretch: Stretch;
  /** Height kept for a ribbon and, at a desk, the name on it. */
  ribbonPx: number;
  sheet: NightSheet;
  document: SiteDocument;
  free: Stretch;
  pxPerLpm: number;
  x(at: number): number;
}

function stackLane(lane: Lane, sheet: NightSheet): Stacked {
  const runs = sheet.runs.filter((run) => lane.supplies.has(run.supply));
  const limit = lane.limitLpm ?? peak(runs);
  const items: Item[] = runs.map((run) => ({ key: runKey(run), start: run.start, end: run.end, flow: run.flow_lpm }));
  return { limit, runs, steps: stack(items, limit) };
}

function peak(runs: readonly Run[]): number {
  const openAt = (at: number) => runs.filter((run) => run.start <= at && run.end > at);
  const draws = runs.map((run) => openAt(run.start).reduce((sum, other) => sum + other.flow_lpm, 0));
  return Math.max(1, ...draws);
}

function scaleOf(limits: readonly number[], { wide, width, only }: Frame): number {
  const room = only ? ROOM.lane : wide ? ROOM.desk : width < PHONE_PX ? ROOM.phone : ROOM.tablet;
  return Math.min(
    room.each,
    room.all /
      Math.max(
        1,
        limits.reduce((sum, limit) => sum + limit, 0),
      ),
  );
}

function placeLanes(lanes: readonly Lane[], stacked: readonly Stacked[], base: Base) {
  let y = AXIS_PX;
  const placed: LaneScene[] = [];
  const blocks: Block[] = [];
  lanes.forEach((lane, index) => {
    const { limit = 1, runs = [], steps = new Map<string, Step[]>() } = stacked[index] ?? {};
    const closed = closedIn(lane, base.sheet.closed, base.document, base.stretch);
    const top = y + NAME_PX + (closed.some.length > 0 ? base.ribbonPx : 0);
    const floor = top + limit * base.pxPerLpm;
    placed.push({
      lane,
      nameY: y + NAME_PX - 7,
      top,
      floor,
      hatches: hatchesOf(closed, top, floor, base),
    });
    for (const run of runs) {
      blocks.push({
        key: runKey(run),
        run,
        lane: index,
        pieces: piecesOf(run, steps.get(runKey(run)) ?? [], floor, base),
      });
    }
    y = floor + BETWEEN_PX;
  });
  blocks.sort((a, b) => a.run.start - b.run.start || (a.key < b.key ? -1 : 1));
  return { lanes: placed, blocks, height: y };
}

function piecesOf(run: Run, steps: readonly Step[], floor: number, base: Base): Piece[] {
  const height = run.flow_lpm * base.pxPerLpm;
  const pieces = steps.map(({ start, foot }, index) => ({
    ...across(start, steps[index + 1]?.start ?? run.end, base),
    y: floor - foot * base.pxPerLpm - height,
    height,
  }));
  return pieces.sort((a, b) => a.x - b.x);
}

function across(start: number, end: number, base: Base): { x: number; width: number } {
  const [one, other] = [base.x(start), base.x(end)];
  return { x: Math.min(one, other), width: Math.abs(other - one) };
}

function hatchesOf(closed: LaneClosed, top: number, floor: number, base: Base): Hatch[] {
  const whole = closed.whole.map((span) => ({
    closure: span.closure,
    ribbon: false,
    piece: { ...across(span.start, span.end, base), y: top, height: floor - top },
  }));
  const some = closed.some.map((span) => ({
    closure: span.closure,
    ribbon: true,
    piece: { ...across(span.start, span.end, base), y: top - RIBBON_PX - 2, height: RIBBON_PX },
  }));
  return [...whole, ...some];
}

/** What did not fit stands past the end of the hours in which water may flow, true to size, as far as there is room. */
function missingIn(lane: LaneScene, base: Base): Missing[] {
  const short = base.sheet.shortfalls.filter((item) => lane.lane.supplies.has(item.supply) && item.run_s > 0);
  const items = short.map((item, index) => ({
    key: String(index).padStart(6, "0"),
    start: base.free.to,
    end: base.free.to + item.run_s,
    flow: (item.volume_l * 60) / item.run_s,
  }));
  const steps = stack(items, Number.POSITIVE_INFINITY);
  return short.flatMap((shortfall, index) => {
    const item = items[index];
    const foot = item && steps.get(item.key)?.[0]?.foot;
    if (!item || foot === undefined) return [];
    const height = item.flow * base.pxPerLpm;
    const y = lane.floor - foot * base.pxPerLpm - height;
    return y < lane.top - 1 ? [] : [{ shortfall, piece: { ...across(item.start, item.end, base), y, height } }];
  });
}

/** The three steps of dusk after sunset and of dawn before sunrise, half an hour each: common practice, no source. */
export function twilight(scene: Scene, clock: ClockData): { piece: { x: number; width: number }; depth: number }[] {
  const { stretch } = scene;
  const clip = (at: number) => Math.min(stretch.to, Math.max(stretch.from, at));
  const band = (from: number, to: number, depth: number) => {
    const [one, other] = [scene.x(clip(from)), scene.x(clip(to))];
    return { piece: { x: Math.min(one, other), width: Math.abs(other - one) }, depth };
  };
  const half = 1800;
  const dusk = clock.sunset === null ? [] : [3, 2, 1].map((depth, step) => bandAfter(clock.sunset ?? 0, step, depth));
  const dawn =
    clock.sunrise === null ? [] : [3, 2, 1].map((depth, step) => bandBefore(clock.sunrise ?? 0, step, depth));
  function bandAfter(sunset: number, step: number, depth: number) {
    return band(step === 0 ? stretch.from : sunset + (step - 1) * half, sunset + step * half, depth);
  }
  function bandBefore(sunrise: number, step: number, depth: number) {
    return band(sunrise - step * half, step === 0 ? stretch.to : sunrise - (step - 1) * half, depth);
  }
  return [...dusk, ...dawn].filter(({ piece }) => piece.width > 0);
}
