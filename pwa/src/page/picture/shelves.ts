/**
 * Stacks a lane's runs: each on the lowest shelf that is free. Flow is height, so what is open together never
 * reaches over the limit. Where the free height lies in pieces, those already open step down to make it whole.
 */

export interface Item {
  key: string;
  start: number;
  end: number;
  flow: number;
}

/** From `start` on the item stands with its foot at height `foot`, until its next step or its end. */
export interface Step {
  start: number;
  foot: number;
}

interface Open {
  item: Item;
  steps: Step[];
}

/** Room for sums of decimal flows. */
const HAIR = 1e-6;

export function stack(items: readonly Item[], limit: number): Map<string, Step[]> {
  const placed = new Map<string, Step[]>();
  let open: Open[] = [];
  for (const item of [...items].sort(byStart)) {
    open = open.filter((other) => other.item.end > item.start);
    const foot = lowestGap(open, item.flow, limit) ?? settle(open, item.start);
    const steps = [{ start: item.start, foot }];
    placed.set(item.key, steps);
    open.push({ item, steps });
  }
  return placed;
}

/** Larger flows first, so that they stand below. */
function byStart(a: Item, b: Item): number {
  return a.start - b.start || b.flow - a.flow || b.end - a.end || (a.key < b.key ? -1 : 1);
}

function footOf(open: Open): number {
  return open.steps[open.steps.length - 1]?.foot ?? 0;
}

function byFoot(a: Open, b: Open): number {
  return footOf(a) - footOf(b);
}

function lowestGap(open: readonly Open[], flow: number, limit: number): number | undefined {
  let foot = 0;
  for (const other of [...open].sort(byFoot)) {
    if (footOf(other) - foot >= flow - HAIR) return foot;
    foot = Math.max(foot, footOf(other) + other.item.flow);
  }
  return foot + flow <= limit + HAIR ? foot : undefined;
}

/** Lets all that is open sink to the floor at this moment, and says how high they reach. */
function settle(open: readonly Open[], now: number): number {
  let foot = 0;
  for (const other of [...open].sort(byFoot)) {
    if (footOf(other) > foot + HAIR) step(other, now, foot);
    foot += other.item.flow;
  }
  return foot;
}

function step(open: Open, now: number, foot: number): void {
  const last = open.steps[open.steps.length - 1];
  if (last && last.start === now) last.foot = foot;
  else open.steps.push({ start: now, foot });
}
