/** What screens read of the journal. Every value is a signal that follows what the phone holds. */

import { computed, signal } from "@preact/signals";
import { copy } from "../store/queries";
import { type Entry, type Followed, NOTHING_FOLLOWED, type ToldRow } from "./shapes";

/** What the phone has of the site's journal, in the order of arrival; null: not read yet. */
export const entries = signal<readonly Entry[] | null>(null);
/** What this person told and the copy has not got yet, at whichever site. */
export const told = signal<readonly ToldRow[]>([]);
export const followed = signal<Followed>(NOTHING_FOLLOWED);

/** What happened, the newest first: what arrived, and what was told here and is on its way. */
export const happened = computed<readonly Happened[]>(() => {
  const arrived = (entries.value ?? []).map((entry): Happened => ({ ...entry, row: null }));
  const known = new Set(arrived.map((entry) => entry.id));
  const here = told.value.filter((row) => row.site === copy.value?.site && !known.has(row.id));
  const own = here.map((row): Happened => ({ ...row.entry, by: `person:${row.person}`, row }));
  return [...arrived, ...own].sort((one, other) => other.at - one.at || (one.id < other.id ? 1 : -1));
});

/** An entry on the screen. `row`: it is this person's own and still on this phone. */
export type Happened = Omit<Entry, "number" | "arrived_at"> & { row: ToldRow | null };
