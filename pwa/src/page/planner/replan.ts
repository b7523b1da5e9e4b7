/** Works out anew the nights that do not know of the latest edits, while the server has not: tonight first. */

import { batch, computed, effect, signal } from "@preact/signals";
import { type KnownNight, nights, tonightDate } from "../night/nights";
import type { NightSheet } from "../night/sheet";
import type { SiteRecord } from "../site/document";
import { copy } from "../store/queries";
import { NoPlanner, type Planned, planNight, planner, Unsound } from "./planner";

/** What the server takes for a night that an edit has changed: both then come to the same sheet. */
const EFFORT = 8;
/** Somebody who steps a value up ten times wants the last of them planned. Nights to come have more time than tonight. */
const [PAUSE_TONIGHT_MS, PAUSE_MS] = [300, 1500];

interface Ground {
  site: string;
  format: number;
  records: readonly SiteRecord[];
}

/** The site as it stands here. The same object for as long as nothing in it has changed. */
const ground = signal<Ground | null>(null);
/** For each night, what it was last planned for here, or tried. */
const tried = new Map<string, Ground>();
/** The server's own sheets: whoever plans a night anew starts from them, as the server does. */
const servers = new Map<string, NightSheet>();
/** Counts up when a night is done, so that the next one has its turn. */
const done = signal(0);

/** The next night to plan, for which ground; null where there is none, or nobody to plan it. */
const due = computed(() => {
  void done.value;
  const here = ground.value;
  if (!here || planner.value.is !== "ready") return null;
  const night = nextNight(nights.value, tonightDate.value, (date) => tried.get(date) !== here);
  return night === null ? null : { night, here };
});

/** Tonight, else the first one after it that is behind and wanted. */
export function nextNight(
  known: ReadonlyMap<string, KnownNight>,
  tonight: string,
  wanted: (night: string) => boolean,
): string | null {
  const behind = [...known].filter(([night, one]) => one.behind && night >= tonight && wanted(night));
  return behind.map(([night]) => night).sort()[0] ?? null;
}

/** From now on; the way to stop is handed back. */
export function followOutbox(): () => void {
  let pause: ReturnType<typeof setTimeout> | undefined;
  const stops = [
    effect(() => remember(nights.value)),
    effect(() => settle(copy.value)),
    effect(() => {
      const next = due.value;
      clearTimeout(pause);
      if (!next) return;
      const ms = next.night === tonightDate.peek() ? PAUSE_TONIGHT_MS : PAUSE_MS;
      pause = setTimeout(() => void planAnew(next.night, next.here), ms);
    }),
  ];
  return () => {
    clearTimeout(pause);
    for (const stop of stops) stop();
    ground.value = null;
    for (const memory of [tried, servers]) memory.clear();
  };
}

function remember(known: ReadonlyMap<string, KnownNight>): void {
  for (const [night, { from, sheet }] of known) if (from === "server") servers.set(night, sheet);
}

/** What was planned here for another ground does not know of the latest edits. */
function settle(here: Ground | null): void {
  const before = ground.peek();
  if (here && before && sameGround(here, before)) return;
  batch(() => {
    ground.value = here && { site: here.site, format: here.format, records: here.records };
    const known = nights.peek();
    const stale = [...known].filter(([, one]) => one.from === "phone" && !one.behind);
    if (stale.length === 0) return;
    nights.value = new Map([...known, ...stale.map(([night, one]) => [night, { ...one, behind: true }] as const)]);
  });
}

/** The store hands out a new list each time; most of its records are the same objects. */
export function sameGround(one: Ground, other: Ground): boolean {
  return (
    one.site === other.site &&
    one.records.length === other.records.length &&
    one.records.every((record, place) => sameRecord(record, other.records[place]))
  );
}

function sameRecord(one: SiteRecord, other: SiteRecord | undefined): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}

async function planAnew(night: string, here: Ground): Promise<void> {
  tried.set(night, here);
  const planned = await plannedOn(night, here);
  batch(() => {
    if (planned && ground.peek() === here) put(night, planned);
    done.value += 1;
  });
}

/** Null where it could not be planned: then the night stays behind, and says so. */
async function plannedOn(night: string, here: Ground): Promise<Planned | null> {
  const server = servers.get(night);
  const before = server?.site === here.site ? server : null;
  try {
    const document = { format: here.format, records: [...here.records] };
    return await planNight(`replan ${night}`, document, night, before, { effort: EFFORT, lazy: true });
  } catch (error) {
    if (error instanceof NoPlanner) tried.delete(night);
    else if (!(error instanceof Unsound) && !isOvertaken(error)) throw error;
    return null;
  }
}

function isOvertaken(error: unknown): boolean {
  return error instanceof DOMException && error.name === "AbortError";
}

/** Unless the server's own came meanwhile. */
function put(night: string, { sheet, clock }: Planned): void {
  const known = nights.peek();
  if (!known.get(night)?.behind) return;
  nights.value = new Map(known).set(night, { sheet, clock, from: "phone", behind: false });
}
