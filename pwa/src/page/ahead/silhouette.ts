/**
 * How full a night is: what each source gives over time, stacked, against what all together could give. Plain figures;
 * draws nothing itself. Times are seconds since the night's noon, so that all nights stand under one axis.
 */

import type { NightSheet, Run } from "../night/sheet";
import { freeStretch } from "../picture/axis";
import { type Lane, lanesOf } from "../picture/lanes";
import type { SiteDocument } from "../site/document";

/** From `at` on, this much flows in each group, one figure a group. */
export interface Moment {
  at: number;
  flows: number[];
}

/** What all silhouettes of a site share: the hours they show, and the flow that is full height. */
export interface Measure {
  from: number;
  to: number;
  fullLpm: number;
}

export interface Box {
  width: number;
  height: number;
  mirrored: boolean;
}

/** The supplies a silhouette tells apart, the same on every night, so that each keeps its shade. */
export function groupsOf(document: SiteDocument, sheets: readonly NightSheet[]): Lane[] {
  const [first] = sheets;
  if (!first) return [];
  const all = {
    ...first,
    runs: sheets.flatMap((sheet) => sheet.runs),
    shortfalls: sheets.flatMap((sheet) => sheet.shortfalls),
  };
  return lanesOf(document, all);
}

/** Every moment at which something opens or closes, with what flows from then on. */
export function moments(sheet: NightSheet, runs: readonly Run[], groups: readonly Pick<Lane, "supplies">[]): Moment[] {
  const changes = new Map<number, number[]>();
  const change = (instant: number, group: number, lpm: number) => {
    const at = instant - sheet.starts;
    const flows = changes.get(at) ?? groups.map(() => 0);
    flows[group] = (flows[group] ?? 0) + lpm;
    changes.set(at, flows);
  };
  for (const run of runs) {
    const group = groups.findIndex((one) => one.supplies.has(run.supply));
    if (group < 0) continue;
    change(run.start, group, run.flow_lpm);
    change(run.end, group, -run.flow_lpm);
  }
  return summed(changes);
}

function summed(changes: ReadonlyMap<number, number[]>): Moment[] {
  let flowing: number[] = [];
  return [...changes]
    .sort(([a], [b]) => a - b)
    .map(([at, flows]) => {
      // Sums of decimal flows are rounded to a millilitre a minute: what has closed is nothing at all.
      flowing = flows.map((lpm, group) => Math.round(((flowing[group] ?? 0) + lpm) * 1000) / 1000 + 0);
      return { at, flows: flowing };
    });
}

export function peakOf(found: readonly Moment[]): number {
  return Math.max(0, ...found.map(({ flows }) => flows.reduce((sum, lpm) => sum + lpm, 0)));
}

/** The hours in which water may flow on any of the nights, and full height: all limits together, or the highest peak. */
export function measureOf(nights: readonly { sheet: NightSheet }[], groups: readonly Lane[]): Measure | null {
  if (nights.length === 0) return null;
  const stretches = nights.map(({ sheet }) => stretchOf(sheet));
  const peak = Math.max(1, ...nights.map(({ sheet }) => peakOf(moments(sheet, sheet.runs, groups))));
  return {
    from: Math.min(...stretches.map((one) => one.from)),
    to: Math.max(...stretches.map((one) => one.to)),
    fullLpm: Math.max(peak, limitOf(groups) ?? 0),
  };
}

/** So much of the hours in which nothing may flow is shown before and after the others. */
const MARGIN_S = 2700;

function stretchOf(sheet: NightSheet): { from: number; to: number } {
  const free = freeStretch(sheet);
  const last = Math.max(free.to, ...sheet.runs.map((run) => run.end));
  const first = Math.min(free.from, ...sheet.runs.map((run) => run.start));
  return { from: first - MARGIN_S - sheet.starts, to: last + MARGIN_S - sheet.starts };
}

/** What all groups together could give; null where one of them has no limit. */
export function limitOf(groups: readonly Pick<Lane, "limitLpm">[]): number | null {
  let all = 0;
  for (const { limitLpm } of groups) {
    if (limitLpm === null) return null;
    all += limitLpm;
  }
  return all || null;
}

export function xOf(at: number, { from, to }: Measure, { width, mirrored }: Box): number {
  const along = (Math.min(to, Math.max(from, at)) - from) * (width / (to - from));
  return mirrored ? width - along : along;
}

/** The outline of one group's band, standing on those of the groups before it; empty where it gives nothing. */
export function bandPath(found: readonly Moment[], group: number, measure: Measure, box: Box): string {
  if (!found.some(({ flows }) => (flows[group] ?? 0) > 0)) return "";
  const y = (lpm: number) => box.height * (1 - lpm / measure.fullLpm);
  const level = (flows: readonly number[], upTo: number) => flows.slice(0, upTo).reduce((sum, lpm) => sum + lpm, 0);
  const corners = found.map(({ at, flows }, index) => ({
    x: xOf(at, measure, box),
    next: xOf(found[index + 1]?.at ?? at, measure, box),
    foot: y(level(flows, group)),
    top: y(level(flows, group + 1)),
  }));
  const tops = corners.map(({ x, next, top }) => `L${px(x)} ${px(top)}L${px(next)} ${px(top)}`);
  const feet = [...corners].reverse().map(({ x, next, foot }) => `L${px(next)} ${px(foot)}L${px(x)} ${px(foot)}`);
  return `M${[...tops, ...feet].join("").slice(1)}Z`;
}

function px(value: number): string {
  return String(Math.round(value * 10) / 10);
}
