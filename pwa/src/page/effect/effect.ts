/** What changes would do to a night, worked out on this phone before anything is kept. Never in the way of typing. */

import { effect, type ReadonlySignal, signal } from "@preact/signals";
import { NoPlanner, planNight, planner, Unsound } from "../planner/planner";
import { SiteClock } from "../site/clock";
import { SiteDocument } from "../site/document";
import { copy } from "../store/queries";
import type { Change } from "../store/shapes";
import { type Comparison, compare } from "./compare";
import { firstNight, knownNights, nightOf, withChanges } from "./grounds";

export interface Effect {
  comparison: Comparison;
  /** The site with the changes, and the clock of the night: what the sheet after them speaks of. */
  document: SiteDocument;
  clock: SiteClock;
  clockData: ConstructorParameters<typeof SiteClock>[0];
  tonight: boolean;
}

export type EffectState =
  /** Nothing is changed, so there is nothing to tell. */
  | { is: "none" }
  /** Being worked out; what was known of the changes before these may stand meanwhile. */
  | { is: "working"; last: Effect | null }
  | { is: "known"; effect: Effect }
  /** The planner loads; from 0 to 1. */
  | { is: "loading"; progress: number }
  /** Known after sync: this phone has no planner, no copy of the site, or not this night. */
  | { is: "later" }
  /** The changes break rules of the document. */
  | { is: "unsound"; faults: Unsound["faults"] };

/** After the last keystroke: long enough to keep typing free, short enough to feel at once. */
const PAUSE_MS = 120;

let topics = 0;

export interface Watched {
  state: ReadonlySignal<EffectState>;
  stop: () => void;
}

/**
 * Follows changes and keeps the effect of the latest: an earlier one that is overtaken is never shown. `night` is a
 * date, or left out for the first night in which the changed turns run.
 */
export function watchEffect(
  changes: ReadonlySignal<readonly Change[]>,
  night?: ReadonlySignal<string | null>,
): Watched {
  topics += 1;
  const topic = `effect-${topics}`;
  const state = signal<EffectState>({ is: "none" });
  let round = 0;
  let pause: ReturnType<typeof setTimeout> | undefined;
  const stop = effect(() => {
    const asked = changes.value;
    const ready = planner.value;
    const on = night?.value ?? nightOf(asked);
    round += 1;
    clearTimeout(pause);
    const at = round;
    const first = firstState(asked, ready, on, state.peek());
    state.value = first;
    if (first.is !== "working") return;
    pause = setTimeout(() => {
      void workedOut(topic, asked, on).then((found) => {
        if (at === round && found) state.value = found;
      });
    }, PAUSE_MS);
  });
  return {
    state,
    stop: () => {
      round += 1;
      clearTimeout(pause);
      stop();
    },
  };
}

function firstState(
  changes: readonly Change[],
  ready: { is: string; progress: number },
  night: string,
  last: EffectState,
): EffectState {
  if (changes.length === 0) return { is: "none" };
  if (ready.is === "absent" || !copy.value || !knownNights.value.has(night)) return { is: "later" };
  if (ready.is !== "ready") return { is: "loading", progress: ready.progress };
  return { is: "working", last: last.is === "known" ? last.effect : last.is === "working" ? last.last : null };
}

/** Null where a later change has overtaken this one. */
async function workedOut(topic: string, changes: readonly Change[], night: string): Promise<EffectState | null> {
  const [data, known] = [copy.peek(), knownNights.peek().get(night)];
  if (!data || !known) return { is: "later" };
  const changed = withChanges(data, changes);
  try {
    const { sheet, clock } = await planNight(topic, changed, night, known.sheet);
    const found: Effect = {
      comparison: compare(known.sheet, sheet),
      document: new SiteDocument(changed),
      clock: new SiteClock(clock),
      clockData: clock,
      tonight: night === firstNight.peek(),
    };
    return { is: "known", effect: found };
  } catch (error) {
    return faultState(error);
  }
}

function faultState(error: unknown): EffectState | null {
  if (error instanceof Unsound) return { is: "unsound", faults: error.faults };
  if (error instanceof NoPlanner) return { is: "later" };
  if (error instanceof DOMException && error.name === "AbortError") return null;
  throw error;
}
