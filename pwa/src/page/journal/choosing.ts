/** Which entries of the journal are shown, and under which night. */

import type { SiteDocument } from "../site/document";
import type { Happened } from "./queries";
import { type Entry, KINDS, type Kind } from "./shapes";

/** What a reader looks for. `calm`: all but what valves and meters do by themselves. */
export const SORTS = ["calm", "notes", "alarms", "water", "valves", "meters", "all"] as const;
export type Sort = (typeof SORTS)[number];

const BY_THEMSELVES: readonly Kind[] = ["opened", "closed", "flow", "count", "alive"];
const KINDS_OF: Record<Sort, readonly Kind[]> = {
  calm: KINDS.filter((kind) => !BY_THEMSELVES.includes(kind)),
  notes: ["note", "finding"],
  alarms: ["alarm_opened", "alarm_seen", "alarm_explained", "alarm_ended"],
  water: ["power_lost", "power_back", "shut", "freed", "stopped", "lifted"],
  valves: ["opened", "closed"],
  meters: ["flow", "count", "replaced"],
  all: KINDS,
};

export const isSort = (word: string): word is Sort => (SORTS as readonly string[]).includes(word);
export const kindsOf = (sort: Sort): readonly Kind[] => KINDS_OF[sort];

/** What entries are about. */
export interface About {
  table: "station" | "supply";
  id: string;
}

export interface Looked {
  sort: Sort;
  about: About | null;
  text: string;
}

/** Whether an entry is looked for. `words`: what stands on its row, to be searched in. */
export function isLooked(entry: Happened, looked: Looked, words: (entry: Happened) => string): boolean {
  if (!KINDS_OF[looked.sort].includes(entry.kind)) return false;
  if (looked.about && entry[looked.about.table] !== looked.about.id) return false;
  const sought = folded(looked.text);
  return !sought || folded(words(entry)).includes(sought);
}

function folded(text: string): string {
  return text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().trim();
}

export interface Night<Item> {
  night: string;
  items: Item[];
}

/** The same, night by night. `wallOf` says what the site's wall reads; a night begins at noon. */
export function byNight<Item extends { at: number }>(
  items: readonly Item[],
  wallOf: (instant: number) => Date,
): Night<Item>[] {
  const found: Night<Item>[] = [];
  for (const item of items) {
    const night = nightOf(wallOf(item.at));
    const last = found.at(-1);
    if (last?.night === night) last.items.push(item);
    else found.push({ night, items: [item] });
  }
  return found;
}

export function nightOf(wall: Date): string {
  return new Date(wall.getTime() - 12 * 3_600_000).toISOString().slice(0, 10);
}

const DAY_S = 24 * 3600;
const LATE_S = 15 * 60;

/** From when on the phone holds all of its kinds; what happened before is asked of the server. */
export function wholeSince(entries: readonly Entry[], now: number, days: number, most: number): number {
  const first = now - days * DAY_S;
  const [oldest] = entries;
  return oldest && entries.length >= most ? Math.max(first, oldest.arrived_at + LATE_S) : first;
}

/** The one place that an entry names, as people call it; empty where it names none. */
export function placeName(entry: Pick<Happened, "station" | "supply" | "controller">, document: SiteDocument): string {
  if (entry.station) return document.nameOf("station", entry.station);
  if (entry.supply) return document.nameOf("supply", entry.supply);
  return entry.controller ? document.nameOf("controller", entry.controller) : "";
}
