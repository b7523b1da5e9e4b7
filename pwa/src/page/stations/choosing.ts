/** What the list of stations shows, and which of them are chosen: kept while somebody looks at a station and comes back. */

import { signal } from "@preact/signals";
import type { Grouping } from "./list";

export const query = signal("");
export const grouping = signal<Grouping>("part");
export const choosing = signal(false);
export const chosen = signal<ReadonlySet<string>>(new Set());
/** How far down the list was. */
export const place = { top: 0 };

export function toggle(station: string): void {
  const next = new Set(chosen.peek());
  if (!next.delete(station)) next.add(station);
  chosen.value = next;
}

/** All of them, or none of them where all are chosen already. */
export function toggleAll(stations: readonly string[]): void {
  const next = new Set(chosen.peek());
  const all = stations.every((station) => next.has(station));
  for (const station of stations) {
    if (all) next.delete(station);
    else next.add(station);
  }
  chosen.value = next;
}

export function endChoosing(): void {
  choosing.value = false;
  chosen.value = new Set();
}
