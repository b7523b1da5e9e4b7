/** The rests of tonight that are offered, worked out on this phone: keeping to the clock, and making up for it. */

import { computed, effect, signal } from "@preact/signals";
import { compare } from "../effect/compare";
import type { Effect } from "../effect/effect";
import { happened } from "../journal/queries";
import { nights, tonightDate } from "../night/nights";
import { now, serverTime } from "../night/now";
import type { NightSheet } from "../night/sheet";
import { askEngine, NoPlanner, planner, Unsound } from "../planner/planner";
import { type ClockData, SiteClock } from "../site/clock";
import { SiteDocument } from "../site/document";
import { copy } from "../store/queries";
import { store } from "../sync/phone";
import { countingIn, type Interruption, interruptionsOf, type Promised, type Told } from "./interruptions";
import { promised, recallPromises } from "./promises";

export type Way = "keep" | "recover";

/** What a rest of the night changes, as `engine/catch_up/effect.py` says it. Litres and instants. */
export interface RestFigures {
  finish_before: number | null;
  finish_after: number | null;
  missed_l: number;
  recovered_l: number;
  lost_l: number;
  later_count: number;
  moved_count: number;
}

export interface Rest {
  way: Way;
  sheet: NightSheet;
  clock: ClockData;
  figures: RestFigures;
  /** As the picture of an edit's effect shows it. */
  effect: Effect;
}

/** Worked out for the instant `at`. `rests` is empty where tonight goes on as its sheet has it. */
export interface Offer {
  at: number;
  promised: readonly Promised[];
  before: NightSheet;
  rests: readonly Rest[];
}

export type OfferState = { is: "none" } | { is: "working" } | { is: "absent" } | { is: "known"; offer: Offer };

/** What the server takes: the same effort gives the same night there. */
export const EFFORT = 8;
/** An offer holds for so long; then it is worked out for the time that it is. */
const HOLDS_S = 300;

export const offered = signal<OfferState>({ is: "none" });

export const tonight = computed(() => nights.value.get(tonightDate.value) ?? null);
const told = computed<readonly Told[]>(() => {
  const night = tonight.value;
  return night ? countingIn(happened.value, night.clock.starts, night.clock.ends) : [];
});
export const interruptions = computed<readonly Interruption[]>(() => interruptionsOf(told.value));
export const goingOn = computed(() => interruptions.value.filter(({ until }) => until === null));

/** Follow the night; the way to stop is handed back. */
export function followRests(): () => void {
  let round = 0;
  const period = computed(() => Math.floor(now.value / HOLDS_S));
  const stopRecalling = effect(() => {
    const opened = store.value;
    // Asked again with every sheet of tonight: another one may rest on what somebody else expects.
    if (opened && tonight.value && goingOn.value.length) void recallPromises(opened);
  });
  const stop = effect(() => {
    const [night, data, is] = [tonight.value, copy.value, planner.value.is];
    const entries = told.value;
    const expected = goingOn.value.flatMap(({ key }) => promised.value.get(key) ?? []);
    period.value;
    round += 1;
    const at = round;
    if (!night || !data || interruptions.value.length === 0) offered.value = { is: "none" };
    else if (is === "absent") offered.value = { is: "absent" };
    else if (is !== "ready") offered.value = { is: "working" };
    else {
      if (offered.peek().is !== "known") offered.value = { is: "working" };
      const ground = { data, sheet: night.sheet, entries, expected };
      void workedOut(ground).then((state) => {
        if (at === round && state) offered.value = state;
      });
    }
  });
  return () => {
    stopRecalling();
    stop();
  };
}

interface Ground {
  data: ConstructorParameters<typeof SiteDocument>[0];
  sheet: NightSheet;
  entries: readonly Told[];
  expected: readonly Promised[];
}

/** Null where a later question has overtaken this one. */
async function workedOut(ground: Ground): Promise<OfferState | null> {
  const at = serverTime();
  const offer = { at, promised: ground.expected, before: ground.sheet };
  try {
    const keep = await askFor("keep", ground, at);
    if (!isNews(keep)) return { is: "known", offer: { ...offer, rests: [] } };
    const recover = await askFor("recover", ground, at);
    return { is: "known", offer: { ...offer, rests: isSame(keep, recover) ? [keep] : [recover, keep] } };
  } catch (error) {
    if (error instanceof NoPlanner || error instanceof Unsound) return { is: "absent" };
    if (error instanceof DOMException && error.name === "AbortError") return null;
    throw error;
  }
}

async function askFor(way: Way, { data, sheet, entries, expected }: Ground, at: number): Promise<Rest> {
  const ends = expected.map((one, place) => ({ ...one, id: `promised-${place}`, by: "server" }));
  const given = { before: sheet, now: at, effort: EFFORT, way, entries: [...entries, ...ends] };
  const found = await askEngine<{ sheet: NightSheet; clock: ClockData; effect: RestFigures }>(
    `rest ${way}`,
    "rest",
    data,
    given,
  );
  const effect: Effect = {
    comparison: compare(sheet, found.sheet),
    document: new SiteDocument(data),
    clock: new SiteClock(found.clock),
    clockData: found.clock,
    tonight: true,
  };
  return { way, sheet: found.sheet, clock: found.clock, figures: found.effect, effect };
}

/** Something is lost, or what is to come moves. */
export function isNews({ figures }: Pick<Rest, "figures">): boolean {
  return figures.missed_l > 0 || figures.moved_count > 0;
}

/** Nothing can be made up for: there is one rest alone. */
export function isSame(keep: Pick<Rest, "figures">, recover: Pick<Rest, "figures">): boolean {
  const [one, other] = [keep.figures, recover.figures];
  return other.recovered_l <= 0 && one.finish_after === other.finish_after && one.moved_count === other.moved_count;
}
