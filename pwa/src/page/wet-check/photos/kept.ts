/** Photos in the phone's database: whole and small before anybody says so, and there until the server has them. */

import type { Database } from "../../store/database";

export const KINDS = ["image/jpeg"] as const;

/** `held`: its finding is not kept yet, and it is not sent. `refused`: the server will not have it, as `fault` says; it waits
 * for its person. */
export type PhotoState = "held" | "waits" | "refused" | "sent";

export interface PhotoRow {
  id: string;
  person: string;
  site: string;
  kind: string;
  bytes: ArrayBuffer;
  /** Whole seconds since 1970 by the phone's clock. */
  kept_at: number;
  state: PhotoState;
  fault: string | null;
}

/** On the disk when this resolves. Raises `StorageFault`. */
export async function keepPhoto(database: Database, row: PhotoRow): Promise<void> {
  await database.write(["photos"], true, async (tx) => {
    await tx.objectStore("photos").put(row);
  });
}

export async function photoIn(database: Database, person: string, id: string): Promise<PhotoRow | null> {
  const row = await database.read(["photos"], (tx) => tx.objectStore("photos").get(id));
  return row?.person === person ? row : null;
}

/** A person's photos that the server has to be sent, the oldest first. */
export async function unsentPhotos(database: Database, person: string): Promise<PhotoRow[]> {
  const due = (await photosOf(database, person)).filter((row) => row.state === "waits");
  return due.sort((one, other) => one.kept_at - other.kept_at || (one.id < other.id ? -1 : 1));
}

/** A person's photos that the server has not got, or will not have. Those it has are not read. */
export async function photosOf(database: Database, person: string): Promise<PhotoRow[]> {
  return await database.read(["photos"], async (tx) => {
    const found: PhotoRow[] = [];
    const range = IDBKeyRange.bound([person], [person, []]);
    const index = tx.objectStore("photos").index("state");
    for (let at = await index.openKeyCursor(range); at; at = await at.continue()) {
      const row = at.key[2] === "sent" ? undefined : await tx.objectStore("photos").get(at.primaryKey);
      if (row) found.push(row);
    }
    return found;
  });
}

/** Their finding is kept, or their person tries once more: from now on they are sent. */
export async function releasePhotos(database: Database, person: string, ids: readonly string[]): Promise<void> {
  await change(database, person, ids, (row) => ({ ...row, state: "waits", fault: null }));
}

export async function dropPhotos(database: Database, person: string, ids: readonly string[]): Promise<void> {
  await change(database, person, ids, () => null);
}

export async function photoAnswered(database: Database, row: PhotoRow, fault: string | null): Promise<void> {
  await change(database, row.person, [row.id], (kept) => ({
    ...kept,
    state: fault === null ? "sent" : "refused",
    fault,
  }));
}

async function change(
  database: Database,
  person: string,
  ids: readonly string[],
  next: (row: PhotoRow) => PhotoRow | null,
): Promise<void> {
  if (!ids.length) return;
  await database.write(["photos"], true, async (tx) => {
    for (const id of ids) {
      const row = await tx.objectStore("photos").get(id);
      if (row?.person !== person) continue;
      const changed = next(row);
      if (changed) await tx.objectStore("photos").put(changed);
      else await tx.objectStore("photos").delete(id);
    }
  });
}

const KEPT_SENT = 40;
const HELD_DAYS = 30;
const DAY_S = 24 * 3600;

/** The server has what was sent: only the newest of them stay, to be seen without signal. What was held for a finding that
 * nobody finished goes in the end. `now`: by the phone's clock. */
export async function tidyPhotos(database: Database, now: number): Promise<void> {
  await database.write(["photos"], false, async (tx) => {
    const rows = (await tx.objectStore("photos").getAll()).sort((one, other) => other.kept_at - one.kept_at);
    const sent = rows.filter((row) => row.state === "sent").slice(KEPT_SENT);
    const left = rows.filter((row) => row.state === "held" && row.kept_at < now - HELD_DAYS * DAY_S);
    for (const { id } of [...sent, ...left]) await tx.objectStore("photos").delete(id);
  });
}
