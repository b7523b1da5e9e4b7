/** Accept a rest of tonight. It holds on this phone at once, and is sent with all else that is unsent. */

import { KeepFault } from "../edits/fault";
import { journalChanged } from "../journal/following";
import { StorageFault } from "../store/database";
import { newId } from "../store/ids";
import { person, storageFault } from "../store/queries";
import { store } from "../sync/phone";
import { dropAccepted, keepAccepted } from "./kept";
import { EFFORT, type Offer, type Rest } from "./rests";

/** Raises `KeepFault` where nobody is signed in, or the phone keeps nothing. */
export async function accept(offer: Offer, rest: Rest): Promise<void> {
  const [opened, who] = [store.peek(), person.peek()];
  if (!opened) throw new KeepFault("no_site");
  if (!who || who.id !== opened.owner) throw new KeepFault("not_yours");
  const { database } = opened;
  if (!database) throw new KeepFault("storage");
  const { at, promised, before } = offer;
  const given = { id: newId(), person: who.id, night: before.night, at, way: rest.way, effort: EFFORT, promised };
  const kept = await written(async () => {
    await keepAccepted(database, opened, { given, before, fault: null });
    // The night as it is from now on here, until the server's own comes.
    const held = opened.kept.nights.get(before.night);
    if (held) await opened.keepNight({ ...held, sheet: rest.sheet, accepted: given.id });
  });
  if (!kept) throw new KeepFault("storage");
}

/** Its person has read why it was turned away. It stays where the phone cannot write, and the app says so. */
export async function dismiss(id: string): Promise<void> {
  const opened = store.peek();
  const database = opened?.database;
  if (database) await written(() => dropAccepted(database, opened, id));
}

/** False: the phone would not keep it. */
async function written(work: () => Promise<void>): Promise<boolean> {
  try {
    await work();
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    return false;
  }
  await journalChanged();
  return true;
}
