/** Cycles and soaks of a turn in words. */

import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import type { RunValue } from "./run-times";

/** Empty where the turn runs in one piece. */
export function cyclesWords({ run_s, cycles, soak_s }: RunValue): string {
  if (cycles <= 1) return "";
  const words = {
    cycles,
    each: duration(run_s / cycles),
    soak: duration(soak_s),
    all: duration(wholeLength({ run_s, cycles, soak_s })),
  };
  return soak_s > 0
    ? t("{cycles} cycles of {each} with {soak} soak between, {all} in all.", words)
    : t("{cycles} cycles of {each}.", words);
}

/** From the first drop to the last. */
export function wholeLength({ run_s, cycles, soak_s }: RunValue): number {
  return run_s + Math.max(0, cycles - 1) * soak_s;
}
