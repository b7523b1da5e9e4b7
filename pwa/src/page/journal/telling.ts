/** Tell the journal what happened. It is durable on this phone before the promise resolves; sending comes by itself. */

import { KeepFault } from "../edits/fault";
import { serverTime } from "../night/now";
import { StorageFault } from "../store/database";
import { newId } from "../store/ids";
import { person, storageFault } from "../store/queries";
import { store } from "../sync/phone";
import { journalChanged } from "./following";
import { dropTold, keepTold, tellAgain } from "./kept";
import type { Said, Told } from "./shapes";

/** What is told, with an id and an instant of its own where it has none. */
export type Telling = Said & { id?: string; at?: number };

/** Keep one entry on this phone; it is sent once there is a line, and taken once however often it is sent.
 * Resolves to its id. Raises `KeepFault` where nobody is signed in, no site is open, or the phone keeps nothing. */
export async function tell(entry: Telling): Promise<string> {
  const [id] = await tellAll([entry]);
  return id ?? "";
}

/** The same of several at once: all are kept, or none is. */
export async function tellAll(tellings: readonly Telling[]): Promise<string[]> {
  const opened = store.peek();
  const who = person.peek();
  if (!opened) throw new KeepFault("no_site");
  if (!who || who.id !== opened.owner) throw new KeepFault("not_yours");
  const { database, site } = opened;
  if (!database) throw new KeepFault("storage");
  const kept_at = serverTime();
  const entries = tellings.map((one): Told => ({ ...one, id: one.id ?? newId(), at: one.at ?? kept_at }));
  await durably(() =>
    keepTold(
      database,
      entries.map((entry) => ({ id: entry.id, person: who.id, site, entry, kept_at, taken: false, faults: null })),
    ),
  );
  return entries.map((entry) => entry.id);
}

/** Throw an unsent entry away. Raises `KeepFault`. */
export async function discard(id: string): Promise<void> {
  const opened = store.peek();
  const database = opened?.database;
  if (database) await durably(() => dropTold(database, opened.owner, id));
}

/** Send once more what was set aside. Raises `KeepFault`. */
export async function sendAgain(id: string): Promise<void> {
  const opened = store.peek();
  const database = opened?.database;
  if (database) await durably(() => tellAgain(database, opened.owner, id));
}

async function durably(work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    throw new KeepFault("storage");
  }
  await journalChanged();
}
