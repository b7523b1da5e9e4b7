/** What waits on this phone besides edits, read for whoever looks at it: photos and accepted rests, with why they wait. */

import type { Acceptance } from "../catch-up/accepting";
import { StorageFault } from "../store/database";
import { person, storageFault } from "../store/queries";
import { restsKey } from "../store/unsent";
import { countUnsent, store } from "../sync/phone";
import { photosOf } from "../wet-check/photos/kept";

export interface PhotoHere {
  id: string;
  site: string;
  kept_at: number;
  /** What the server said against it; null: it waits for a line. */
  fault: string | null;
}

export interface RestHere {
  given: Pick<Acceptance, "id" | "night" | "way" | "at">;
  fault: string | null;
}

/** The person's photos, the oldest first. Those of a finding that is not written down yet are no news. */
export async function photosHere(): Promise<PhotoHere[]> {
  const opened = store.peek();
  const own = person.peek()?.id;
  if (!opened?.database || !own) return [];
  const rows = (await guarded(photosOf(opened.database, own))) ?? [];
  const waiting = rows.filter((row) => row.state !== "held");
  return waiting
    .map(({ id, site, kept_at, fault }) => ({ id, site, kept_at, fault }))
    .sort((one, other) => one.kept_at - other.kept_at);
}

/** The rests of a night that were accepted here at the site in view, in their order. */
export async function restsHere(): Promise<RestHere[]> {
  const opened = store.peek();
  if (!opened?.database) return [];
  const key = restsKey(opened);
  const rows = await guarded(opened.database.read(["about"], (tx) => tx.objectStore("about").get(key)));
  return (rows ?? []) as RestHere[];
}

/** Its person has read why an accepted rest was turned away. */
export async function forgetRest(id: string): Promise<void> {
  const { dismiss } = await import("../catch-up/accepting");
  await guarded(dismiss(id));
  await guarded(countUnsent());
}

async function guarded<Result>(work: Promise<Result>): Promise<Result | null> {
  try {
    return await work;
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    return null;
  }
}
