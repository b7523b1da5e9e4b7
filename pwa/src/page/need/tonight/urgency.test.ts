import { expect, it } from "vitest";
import type { ZoneNeed } from "../told/shapes";
import { byUrgency, used } from "./urgency";

function zone(hydrozone: string, own: Partial<ZoneNeed>): ZoneNeed {
  return {
    hydrozone,
    by_hand: false,
    depletion_mm: 10,
    ready_mm: 20,
    total_mm: 40,
    tonight_mm: 0,
    share_pct: 100,
    next_night: null,
    next_mm: null,
    stations: [],
    decision: null,
    messages: [],
    ...own,
  };
}

it("puts first what somebody has to look at, then tonight's by dryness, then whose night comes soonest", () => {
  const zones = [
    zone("never", {}),
    zone("friday", { next_night: "2026-07-17", next_mm: 9 }),
    zone("monday", { next_night: "2026-07-13", next_mm: 9 }),
    zone("moist", { tonight_mm: 4 }),
    zone("dry", { tonight_mm: 20, depletion_mm: 24 }),
    zone("unknown", { tonight_mm: null, depletion_mm: null, ready_mm: null, total_mm: null }),
  ];
  expect(byUrgency(zones).map(({ hydrozone }) => hydrozone)).toEqual([
    "unknown",
    "dry",
    "moist",
    "monday",
    "friday",
    "never",
  ]);
});

it("does not guess how much is used where nothing is known", () => {
  expect(used(zone("a", { depletion_mm: null }))).toBeNull();
  expect(used(zone("a", { ready_mm: 0 }))).toBeNull();
  expect(used(zone("a", { depletion_mm: 30 }))).toBe(1.5);
});
