/** Makes sites and nights for tests, with sensible values where a test does not care. */

import { type ClockData, SiteClock } from "../site/clock";
import { SiteDocument, type SiteRecord } from "../site/document";
import type { ClosedSpan, NightSheet, Run } from "./sheet";

export const NOON = 1_792_839_600;
export const HOUR = 3600;

export function aSite(...records: SiteRecord[]): SiteDocument {
  return new SiteDocument({ format: 1, records: [{ table: "site", id: "here", name: "Here" }, ...records] });
}

export function supply(id: string, limit: number | null, fedBy?: string): SiteRecord {
  return {
    table: "supplies",
    id,
    name: id,
    ...(limit ? { limit_lpm: limit } : {}),
    ...(fedBy ? { fed_by: fedBy } : {}),
  };
}

export function aRun(given: Partial<Run> = {}): Run {
  const start = given.start ?? NOON + 9 * HOUR;
  const end = given.end ?? start + 1800;
  const flow = given.flow_lpm ?? 60;
  return {
    turn: "t",
    station: "s",
    program: "p",
    supply: "source",
    controller: null,
    cycle: 1,
    cycles: 1,
    start_local: "",
    end_local: "",
    volume_l: (flow * (end - start)) / 60,
    why: { code: "why", params: {} },
    ladder: [],
    ...given,
    start,
    end,
    flow_lpm: flow,
  };
}

export function aNight(runs: Run[], closed: ClosedSpan[] = []): NightSheet {
  return {
    site: "here",
    night: "2026-10-24",
    starts: NOON,
    ends: NOON + 25 * HOUR,
    runs,
    shortfalls: [],
    draws: [],
    closed,
    finish: runs.length ? Math.max(...runs.map((run) => run.end)) : null,
    bound: null,
    notices: [],
    volume_due_l: 0,
    volume_l: 0,
  };
}

/** Lisbon's clock in the night in which it goes back: +01:00 until 01:00Z, then +00:00. */
export function lisbonClockBack(): ClockData {
  return {
    night: "2026-10-24",
    starts: NOON,
    ends: NOON + 25 * HOUR,
    offset_s: HOUR,
    changes: [{ at: NOON + 14 * HOUR, before_s: HOUR, after_s: 0 }],
    sunset: NOON + 6.7 * HOUR,
    sunrise: NOON + 19.9 * HOUR,
  };
}

export function lisbon(): SiteClock {
  return new SiteClock(lisbonClockBack());
}
