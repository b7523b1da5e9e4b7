/** What interrupts a night, as its journal tells it: no power, no water, or a stop of all watering. Pure. */

import type { Kind } from "../journal/shapes";

/** What of an entry counts here. */
export interface Told {
  id: string;
  at: number;
  kind: Kind;
  by: string;
  station?: string;
  supply?: string;
  controller?: string;
  text?: string;
}

export type What = "power" | "shut" | "stopped";

/** `until` null: it goes on. Power without a controller is the whole site's. */
export interface Interruption {
  key: string;
  what: What;
  since: number;
  until: number | null;
  controller?: string;
  supply?: string;
}

/** When an interruption that goes on is expected to be over. */
export interface Promised {
  kind: Kind;
  at: number;
  controller?: string;
  supply?: string;
}

const BEGINS: Partial<Record<Kind, What>> = { power_lost: "power", shut: "shut", stopped: "stopped" };
const ENDS: Partial<Record<Kind, What>> = { power_back: "power", freed: "shut", lifted: "stopped" };
export const ENDING: Record<What, Kind> = { power: "power_back", shut: "freed", stopped: "lifted" };
/** What says how far a night has come. */
const COUNTS: readonly Kind[] = ["opened", "closed", "alive", ...(Object.keys({ ...BEGINS, ...ENDS }) as Kind[])];

/** The entries of a night by which its rest is worked out, the earliest first. `from` and `to`: instants. */
export function countingIn(entries: readonly Told[], from: number, to: number): Told[] {
  const within = entries.filter(({ kind, at }) => COUNTS.includes(kind) && at >= from && at < to);
  return within.map(onlyWhatCounts).sort((one, other) => one.at - other.at || (one.id < other.id ? -1 : 1));
}

function onlyWhatCounts({ id, at, kind, by, station, supply, controller }: Told): Told {
  const about = { ...(station && { station }), ...(supply && { supply }), ...(controller && { controller }) };
  return { id, at, kind, by, ...about };
}

/** The interruptions in the order of their beginning. `told`: the earliest first. */
export function interruptionsOf(told: readonly Told[]): Interruption[] {
  const found: Interruption[] = [];
  for (const entry of told) {
    const [begins, ends] = [BEGINS[entry.kind], ENDS[entry.kind]];
    const going = found.filter((one) => one.until === null);
    if (begins && !going.some((one) => one.key === keyOf(begins, entry))) found.push(begun(begins, entry));
    if (!ends) continue;
    for (const one of going) if (isEnded(one, ends, entry)) one.until = entry.at;
  }
  return found;
}

function begun(what: What, { at, controller, supply }: Told): Interruption {
  const about = { ...(what === "power" && controller && { controller }), ...(what === "shut" && supply && { supply }) };
  return { key: keyOf(what, { controller, supply }), what, since: at, until: null, ...about };
}

function keyOf(what: What, { controller, supply }: { controller?: string | undefined; supply?: string | undefined }) {
  return what === "power" ? `power/${controller ?? ""}` : what === "shut" ? `shut/${supply ?? ""}` : what;
}

/** Power that is back at the whole site is back at each cabinet. */
function isEnded(one: Interruption, what: What, { controller, supply }: Told): boolean {
  if (one.what !== what) return false;
  if (what === "power") return controller === undefined || one.controller === controller;
  return what === "stopped" || one.supply === supply;
}

/** The entry that ends an interruption, as it is told or promised. */
export function endingOf({ what, controller, supply }: Interruption): Omit<Promised, "at"> {
  return { kind: ENDING[what], ...(controller && { controller }), ...(supply && { supply }) };
}

/** The key of the interruption that a promise is about. */
export function keyOfEnding({ kind, ...about }: Pick<Promised, "kind" | "controller" | "supply">): string {
  return keyOf(ENDS[kind] ?? "stopped", about);
}
