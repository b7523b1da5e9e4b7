/** What one side of a dispute does to tonight: by this phone's planner where it is there, else as the server weighed it. */

import { compare } from "../effect/compare";
import type { Effect, EffectState } from "../effect/effect";
import { firstNight, knownNights } from "../effect/grounds";
import { useEffectOf } from "../effect/watching";
import { shortVolume } from "../night/moments";
import type { KnownNight } from "../night/nights";
import type { NightSheet } from "../night/sheet";
import { SiteClock } from "../site/clock";
import { site } from "../store/queries";
import type { Change, Waiting } from "../store/shapes";
import type { Figures } from "./book";
import { sidesOf } from "./effect-words";
import { fieldOf } from "./ground";

export interface Side {
  before: Figures | null;
  figures: Figures;
  /** With a picture; null where only the server's figures are known. */
  effect: Effect | null;
  clock: SiteClock;
  /** The picture is being worked out. */
  coming?: boolean;
}

export type SideState = { is: "known"; side: Side } | { is: "working" } | { is: "later" };

/**
 * Both sides are held against the night as it was before either of them, where this phone can plan it; without a
 * planner the server's figures hold the proposal against what is in force.
 */
export function useSide(one: Waiting, side: "mine" | "theirs", value: unknown): SideState {
  const weighed = sidesOf(one.effect);
  const night = weighed?.night ?? firstNight.value;
  const known = knownNights.value.get(night);
  const was = workedOut(useEffectOf(one.edit.kind === "set" ? changesTo(one, one.edit.was) : [], night));
  const state = useEffectOf(side === "mine" ? changesTo(one, value) : [], night);
  if (!known) return { is: "later" };
  const before = was?.comparison.after ?? null;
  if (side === "theirs") return asItIs(known, night, before);
  const worked = workedOut(state);
  if (worked) return { is: "known", side: against(before ?? worked.comparison.before, worked) };
  if (weighed?.mine) {
    const clock = new SiteClock(known.clock);
    const coming = state.is === "working" || state.is === "loading";
    return { is: "known", side: { before: weighed.theirs, figures: weighed.mine, effect: null, clock, coming } };
  }
  return { is: state.is === "later" ? "later" : "working" };
}

function workedOut(state: EffectState): Effect | null {
  return state.is === "known" ? state.effect : state.is === "working" ? state.last : null;
}

function against(before: NightSheet, effect: Effect): Side {
  const { after } = effect.comparison;
  const comparison = compare(before, after);
  return {
    before: figuresOf(before),
    figures: figuresOf(after),
    effect: { ...effect, comparison },
    clock: effect.clock,
  };
}

/** What is in force is the night as it stands. Where nothing is known of before, no reflection of it is drawn. */
function asItIs(known: KnownNight, night: string, before: NightSheet | null): SideState {
  const document = site.value;
  if (!document) return { is: "later" };
  const clock = new SiteClock(known.clock);
  const comparison = compare(before ?? { ...known.sheet, runs: [], finish: null }, known.sheet);
  const shown = before ? comparison : { ...comparison, moved: [], fresh: [] };
  const effect = { comparison: shown, document, clock, clockData: known.clock, tonight: night === firstNight.value };
  return {
    is: "known",
    side: { before: before && figuresOf(before), figures: figuresOf(known.sheet), effect, clock },
  };
}

function changesTo({ edit }: Waiting, value: unknown): Change[] {
  const { table, record } = edit;
  const field = fieldOf(edit);
  if (field === "removed") return [{ kind: value === true ? "remove" : "restore", table, record }];
  return [{ kind: "set", table, record, field, now: value }];
}

function figuresOf(sheet: NightSheet): Figures {
  return { finish: sheet.finish, volume_l: sheet.volume_l, short_l: shortVolume(sheet.shortfalls) };
}
