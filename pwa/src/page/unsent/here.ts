/** The photos that wait on this phone, read for whoever looks at them, with why they wait. */

import { StorageFault } from "../store/database";
import { person, storageFault } from "../store/queries";
import { store } from "../sync/phone";
import { photosOf } from "../wet-check/photos/kept";

export interface PhotoHere {
  id: string;
  site: string;
  kept_at: number;
  /** What the server said against it; null: it waits for a line. */
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

async function guarded<Result>(work: Promise<Result>): Promise<Result | null> {
  try {
    return await work;
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    return null;
  }
}
