/** With what a new turn begins: as most turns of its program have it. */

import type { SiteRecord } from "../site/document";

interface UsualRun {
  run_s: number;
  cycles: number;
  soak_s: number;
}

/** Ten minutes for the first turn of all: common practice, no source. */
const FIRST: UsualRun = { run_s: 600, cycles: 1, soak_s: 0 };

/** The commonest run time, cycles and soak; of equally common ones that which comes first. */
export function usualRun(turns: readonly SiteRecord[]): UsualRun {
  const counted = new Map<string, { run: UsualRun; times: number }>();
  for (const turn of turns) {
    const run = { run_s: amount(turn.run_s, 600), cycles: amount(turn.cycles, 1), soak_s: amount(turn.soak_s, 0) };
    const key = JSON.stringify(run);
    counted.set(key, { run, times: (counted.get(key)?.times ?? 0) + 1 });
  }
  const [usual] = [...counted.values()].sort((a, b) => b.times - a.times);
  return usual?.run ?? FIRST;
}

const amount = (value: unknown, otherwise: number): number => (typeof value === "number" ? value : otherwise);
