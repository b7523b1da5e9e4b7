/** Keeps the phone's database from growing for ever: what nobody asks for any more is let go. */

import { rangeOf } from "./database";
import type { Store } from "./store";

const DAY_S = 24 * 3600;
/** What became of an edit is told for so long. The server remembers it for ever. */
export const ANSWERED_DAYS = 40;
export const MOST_ANSWERED = 2000;
export const DECIDED_DAYS = 30;
/** Removal marks live as long on the server. */
export const REMOVED_DAYS = 400;
/** Last night may still be looked at. */
const NIGHTS_BACK = 2;

/** `now`: by the phone's own clock. `tonight`: a date. */
export async function tidy(store: Store, now: number, tonight: string): Promise<void> {
  const { database, owner, site } = store;
  if (!database) return;
  await database.write(["answered", "waiting", "removed", "nights"], false, async (tx) => {
    const answered = tx.objectStore("answered").index("at");
    const old = await answered.getAllKeys(IDBKeyRange.upperBound(now - ANSWERED_DAYS * DAY_S));
    const many = (await answered.count()) - old.length - MOST_ANSWERED;
    const more = many > 0 ? (await answered.getAllKeys(null, old.length + many)).slice(old.length) : [];
    for (const id of [...old, ...more]) await tx.objectStore("answered").delete(id);
    for (const { id, waiting } of await tx.objectStore("waiting").getAll(rangeOf(owner, site))) {
      const over = !waiting.open && (waiting.closed_at ?? 0) < now - DECIDED_DAYS * DAY_S;
      if (over) await tx.objectStore("waiting").delete([owner, site, id]);
    }
    for (const { key, when } of await tx.objectStore("removed").getAll(rangeOf(owner, site))) {
      if (when && when < now - REMOVED_DAYS * DAY_S) await tx.objectStore("removed").delete([owner, site, key]);
    }
    if (tonight)
      await tx.objectStore("nights").delete(IDBKeyRange.bound([owner, site], [owner, site, before(tonight)]));
  });
}

function before(night: string): string {
  return new Date(Date.parse(night) - NIGHTS_BACK * DAY_S * 1000).toISOString().slice(0, 10);
}
