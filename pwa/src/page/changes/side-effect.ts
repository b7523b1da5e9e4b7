/** What one side of a dispute does to tonight: by this phone's planner where it is there, else as the server weighed it. */

import { compare } from "../effect/compare";
import type { Effect } from "../effect/effect";
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
}

/** Null while nothing is known. */
export function useSide(one: Waiting, side: "mine" | "theirs", value: unknown): Side | null {
  const night = sidesOf(one.effect)?.night ?? firstNight.value;
  const known = knownNights.value.get(night);
  const state = useEffectOf(side === "mine" ? changesTo(one, value) : [], night);
  if (!known) return null;
  if (side === "theirs") return asItIs(known, night);
  const worked = state.is === "known" ? state.effect : state.is === "working" ? state.last : null;
  if (worked) {
    const { before, after } = worked.comparison;
    return { before: figuresOf(before), figures: figuresOf(after), effect: worked, clock: worked.clock };
  }
  const weighed = sidesOf(one.effect);
  if (!weighed?.mine) return null;
  return { before: weighed.theirs, figures: weighed.mine, effect: null, clock: new SiteClock(known.clock) };
}

/** What is in force is the night as it stands. */
function asItIs(known: KnownNight, night: string): Side | null {
  const document = site.value;
  if (!document) return null;
  const clock = new SiteClock(known.clock);
  const comparison = compare(known.sheet, known.sheet);
  const tonight = night === firstNight.value;
  const effect = { comparison, document, clock, clockData: known.clock, tonight };
  return { before: null, figures: figuresOf(known.sheet), effect, clock };
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
