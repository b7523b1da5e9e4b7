/** Where a season's picture draws what. Days run from left to right; whoever reads the other way mirrors the whole. */

import type { SeasonDay } from "../told/shapes";
import { isStressed } from "./days";

export interface Box {
  width: number;
  /** Of the strip of rain and watering, and of the soil below it. */
  bars: number;
  soil: number;
}

export interface Bar {
  x: number;
  y: number;
  width: number;
  height: number;
}

const GAP_SHARE = 0.2;

export function slotOf(count: number, { width }: Box): number {
  return count === 0 ? 0 : width / count;
}

/** The most that fell or was given on a day: the scale of the bars. Never nothing. */
export function mostDepth(days: readonly SeasonDay[]): number {
  return Math.max(1, ...days.map((day) => Math.max(day.rain_mm, day.applied_mm)));
}

/** Upright bars on one floor: rain in the first half of each day's slot, watering in the second. Dry days have none. */
export function barsOf(days: readonly SeasonDay[], which: "rain_mm" | "applied_mm", box: Box): Bar[] {
  const [slot, most] = [slotOf(days.length, box), mostDepth(days)];
  const width = (slot * (1 - GAP_SHARE)) / 2;
  const start = which === "rain_mm" ? (slot * GAP_SHARE) / 2 : slot / 2;
  return days.flatMap((day, place) => {
    const height = (box.bars * day[which]) / most;
    return height > 0 ? [{ x: place * slot + start, y: box.bars - height, width, height }] : [];
  });
}

type Depth = (day: SeasonDay) => number;

const depletion: Depth = (day) => day.depletion_mm;
const ready: Depth = (day) => day.ready_mm;

/** From the top of the soil, full, to its floor, where nothing is left for the plants. */
function yOf(mm: number, total: number, { soil }: Box): number {
  return total > 0 ? (soil * Math.min(mm, total)) / total : 0;
}

/** The soil's capacity: that of the latest day, as roots and soils change seldom. */
export function totalOf(days: readonly SeasonDay[]): number {
  return days[days.length - 1]?.total_mm ?? 0;
}

function stepped(days: readonly SeasonDay[], of: Depth, total: number, box: Box, from: number, slot: number): string[] {
  return days.map((day, place) => {
    const y = round(yOf(of(day), total, box));
    return `${round((from + place) * slot)} ${y}H${round((from + place + 1) * slot)}`;
  });
}

/** The water in the soil as an area on its floor. */
export function waterPath(days: readonly SeasonDay[], box: Box): string {
  if (days.length === 0) return "";
  const steps = stepped(days, depletion, totalOf(days), box, 0, slotOf(days.length, box));
  return `M0 ${box.soil}L${steps.join("L")}V${box.soil}Z`;
}

/** The level at which stress begins, as a line. */
export function readyPath(days: readonly SeasonDay[], box: Box): string {
  const steps = stepped(days, ready, totalOf(days), box, 0, slotOf(days.length, box));
  return steps.length === 0 ? "" : `M${steps.join("L")}`;
}

/** What lacks below that level, one shape for each spell: from the level down to the water. */
export function stressPaths(days: readonly SeasonDay[], box: Box): string[] {
  const [slot, total] = [slotOf(days.length, box), totalOf(days)];
  return spellsOf(days).map(([from, until]) => {
    const spell = days.slice(from, until);
    const above = stepped(spell, ready, total, box, from, slot);
    const below = spell
      .map((day, place) => {
        const y = round(yOf(depletion(day), total, box));
        return `${round((from + place + 1) * slot)} ${y}H${round((from + place) * slot)}`;
      })
      .reverse();
    return `M${[...above, ...below].join("L")}Z`;
  });
}

/** Spells of days on which plants took less than they would have, as places from and until. */
export function spellsOf(days: readonly SeasonDay[]): [number, number][] {
  const spells: [number, number][] = [];
  days.forEach((day, place) => {
    if (!isStressed(day)) return;
    const last = spells[spells.length - 1];
    if (last?.[1] === place) last[1] = place + 1;
    else spells.push([place, place + 1]);
  });
  return spells;
}

export interface Tick {
  /** The day's place. */
  place: number;
  day: string;
}

const WEEK = 7;

/** Days to name under the picture, apart enough to be read: weeks in a short stretch, months in a long one. */
export function ticksOf(days: readonly SeasonDay[], width: number, leastApart: number): Tick[] {
  const all = days.map(({ day }, place) => ({ place, day }));
  const long = days.length > 5 * WEEK;
  const marked = long ? all.filter(({ day }) => day.endsWith("-01")) : all.filter(({ place }) => place % WEEK === 0);
  const slot = days.length === 0 ? 0 : width / days.length;
  const kept: Tick[] = [];
  for (const tick of marked) {
    const last = kept[kept.length - 1];
    if (!last || (tick.place - last.place) * slot >= leastApart) kept.push(tick);
  }
  return kept;
}

/** The day under a point of the picture. */
export function placeAt(x: number, count: number, width: number, mirrored: boolean): number {
  const along = mirrored ? width - x : x;
  return Math.min(count - 1, Math.max(0, Math.floor((along / Math.max(1, width)) * count)));
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
