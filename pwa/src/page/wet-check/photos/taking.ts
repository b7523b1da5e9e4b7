/** Taking photos of a finding: each is made small and kept on this phone, and is sent once its finding is kept. */

import { journalChanged } from "../../journal/following";
import { StorageFault } from "../../store/database";
import { newId } from "../../store/ids";
import { storageFault } from "../../store/queries";
import { countUnsent, store } from "../../sync/phone";
import { phoneTime } from "../under-way";
import { dropPhotos, keepPhoto, type PhotoState, photoIn, releasePhotos } from "./kept";
import { type Small, scaledDown } from "./scaling";

export const MOST_PHOTOS = 4;

export type PhotoFault = "no_picture" | "storage";

/** The photo's id, or why there is none. */
export async function takePhoto(file: Blob): Promise<{ id: string } | { fault: PhotoFault }> {
  const opened = store.peek();
  const small = await scaledDown(file);
  if (!small) return { fault: "no_picture" };
  if (!opened?.database) return { fault: "storage" };
  const id = newId();
  const row = { id, person: opened.owner, site: opened.site, ...small, kept_at: phoneTime() };
  const kept = await guarded(keepPhoto(opened.database, { ...row, state: "held", fault: null }));
  return kept ? { id } : { fault: "storage" };
}

/** Nobody wants them: their finding was not kept, they were taken out of it, or the server will not have them. */
export async function letGo(ids: readonly string[]): Promise<void> {
  const opened = store.peek();
  if (!opened?.database) return;
  await guarded(dropPhotos(opened.database, opened.owner, ids));
  await guarded(countUnsent());
}

/** Their finding is kept, or they are tried once more. False: the phone could not note it, and keeping the finding has to be tried again. */
export async function release(ids: readonly string[]): Promise<boolean> {
  const opened = store.peek();
  if (!ids.length) return true;
  if (!opened?.database) return false;
  const done = await guarded(releasePhotos(opened.database, opened.owner, ids));
  if (done) await journalChanged();
  return done;
}

/** A photo as this phone has it, and what the server said against it; null: it is not on this phone. */
export async function photoHere(id: string): Promise<(Small & { fault: string | null; state: PhotoState }) | null> {
  const opened = store.peek();
  return opened?.database ? await photoIn(opened.database, opened.owner, id) : null;
}

async function guarded(work: Promise<void>): Promise<boolean> {
  try {
    await work;
    return true;
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    return false;
  }
}
