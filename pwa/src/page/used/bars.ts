/** Heights of bars, in percent of the picture's. Plain arithmetic, in litres. */

import type { UsedLine } from "../line/api";

/** What stands on one another in a bar: what came of the plan, what is only assumed to have, and what was lost. */
export interface Bar {
  key: string;
  name: string;
  delivered: number;
  assumed: number;
  lost: number;
  /** What came besides the plan, beside the bar. */
  beyond: number;
}

/** The most that any bar stands for, in litres; 0 where there is nothing. */
export function topOf(lines: readonly UsedLine[]): number {
  return Math.max(0, ...lines.flatMap((line) => [line.planned_l, line.beyond_l]));
}

export function barsOf(lines: readonly UsedLine[]): Bar[] {
  const top = topOf(lines) || 1;
  const share = (litres: number) => (100 * litres) / top;
  return lines.map((line) => ({
    key: line.key,
    name: line.name,
    delivered: share(line.delivered_l ?? 0),
    assumed: share(line.assumed_l),
    lost: share(line.lost_l),
    beyond: share(line.beyond_l),
  }));
}

/** Anything was planned or came: of months before anything was reckoned up nothing is known. */
export function hasWater(line: UsedLine): boolean {
  return line.planned_l > 0 || line.came_l > 0;
}

/** Lines with water, and months that have a budget, the greatest first but for months, which come as the year has them. */
export function ordered(lines: readonly UsedLine[], byMonth: boolean): UsedLine[] {
  const kept = lines.filter((line) => hasWater(line) || line.before_l || line.allowed_l);
  return byMonth ? kept : [...kept].sort((one, other) => other.planned_l - one.planned_l);
}
