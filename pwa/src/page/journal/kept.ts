/** The rows of the journal in the phone's database: what its people told and have not sent, and a site's last nights. */

import { type Database, type Reading, rangeOf, type Writing } from "../store/database";
import { type Entry, type EntryFault, type Followed, NOTHING_FOLLOWED, type ToldRow } from "./shapes";

export interface Whose {
  owner: string;
  site: string;
}

/** What the server said to one entry. */
export interface Answer {
  id: string | null;
  outcome: "taken" | "known" | "aside";
  faults: EntryFault[];
}

/** A page of entries in the order of arrival. `next`: the number to go on from; null: `newest` is. */
export interface EntryPage {
  entries: Entry[];
  names: Record<string, string>;
  next: string | null;
  newest: number;
}

/** Keep entries before the screen says so: they are on the disk when this resolves. Raises `StorageFault`. */
export async function keepTold(database: Database, rows: readonly Omit<ToldRow, "place">[]): Promise<void> {
  await database.write(["told"], true, async (tx) => {
    for (const row of rows) await tx.objectStore("told").add(row as ToldRow);
  });
}

/** A person's entries that are not in the copy yet, at whichever site, in the order of their telling. */
export async function toldOf(database: Database, person: string): Promise<ToldRow[]> {
  const rows = await database.read(["told"], (tx) => tx.objectStore("told").getAll());
  return rows.filter((row) => row.person === person);
}

/** Each answered entry is the server's from now on, or waits for its person with what is wrong with it. */
export async function takeAnswers(database: Database, person: string, answers: readonly Answer[]): Promise<void> {
  const said = new Map(answers.map((answer) => [answer.id, answer]));
  await changeTold(database, person, (row) => {
    const answer = said.get(row.id);
    if (!answer) return row;
    return answer.outcome === "aside" ? { ...row, faults: answer.faults } : { ...row, taken: true, faults: null };
  });
}

/** Entries that cannot be sent as they are: they wait for their person, and delay no other. */
export async function setAside(
  database: Database,
  person: string,
  ids: readonly string[],
  fault: EntryFault,
): Promise<void> {
  await changeTold(database, person, (row) => (ids.includes(row.id) ? { ...row, faults: [fault] } : row));
}

/** Send again what was set aside. */
export async function tellAgain(database: Database, person: string, id: string): Promise<void> {
  await changeTold(database, person, (row) => (row.id === id ? { ...row, faults: null } : row));
}

/** Its person has thrown an unsent entry away. */
export async function dropTold(database: Database, person: string, id: string): Promise<void> {
  await changeTold(database, person, (row) => (row.id === id && !row.taken ? null : row));
}

async function changeTold(database: Database, person: string, change: (row: ToldRow) => ToldRow | null): Promise<void> {
  await database.write(["told"], true, async (tx) => {
    for (const row of await tx.objectStore("told").getAll()) {
      const changed = row.person === person ? change(row) : row;
      if (changed === null) await tx.objectStore("told").delete(row.place);
      else if (changed !== row) await tx.objectStore("told").put(changed);
    }
  });
}

export async function followedBy(database: Database, of: Whose): Promise<Followed> {
  return await database.read(["followed"], async (tx) => await followedIn(tx, of));
}

async function followedIn(tx: Reading | Writing, of: Whose): Promise<Followed> {
  return (await tx.objectStore("followed").get([of.owner, of.site]))?.followed ?? NOTHING_FOLLOWED;
}

export async function putFollowed(tx: Writing, of: Whose, followed: Followed): Promise<void> {
  await tx.objectStore("followed").put({ owner: of.owner, site: of.site, followed });
}

/** Change how far a site is followed inside a transaction that holds its row. */
export async function follow(tx: Writing, of: Whose, change: Partial<Followed>): Promise<void> {
  await putFollowed(tx, of, { ...(await followedIn(tx, of)), ...change });
}

/** What the phone has of a site's journal, in the order of arrival. */
export async function entriesOf(database: Database, of: Whose): Promise<Entry[]> {
  const rows = await database.read(["entries"], (tx) => tx.objectStore("entries").getAll(rangeOf(of.owner, of.site)));
  return rows.map(({ owner: _o, site: _s, ...entry }) => entry);
}

/** Keep a page and how far it leads in one transaction; what was told here and is in it leaves the outbox. False: another
 * tab has gone on from `asked` meanwhile, and the page says nothing new. */
export async function takePage(database: Database, of: Whose, asked: number | null, page: EntryPage): Promise<boolean> {
  return await database.write(["entries", "followed", "told"], false, async (tx) => {
    const followed = await followedIn(tx, of);
    if (followed.entries !== asked) return false;
    if (page.newest < (asked ?? 0)) {
      // The server's numbers have begun anew, as after a backup was brought back: so does the copy.
      await tx.objectStore("entries").delete(rangeOf(of.owner, of.site));
      await putFollowed(tx, of, { ...followed, entries: null });
      return false;
    }
    await Promise.all(page.entries.map((entry) => tx.objectStore("entries").put({ ...entry, ...of })));
    const entries = page.next === null ? page.newest : Number(page.next);
    await putFollowed(tx, of, { ...followed, entries, names: { ...followed.names, ...page.names } });
    await dropArrived(tx, of, page.next === null);
    return true;
  });
}

/** What was taken is in the copy once the copy has caught up: whatever came before the question came with it. */
async function dropArrived(tx: Writing, of: Whose, caughtUp: boolean): Promise<void> {
  if (!caughtUp) return;
  for (const row of await tx.objectStore("told").getAll()) {
    if (row.taken && row.person === of.owner && row.site === of.site) await tx.objectStore("told").delete(row.place);
  }
}

export const KEPT_DAYS = 14;
export const MOST_ENTRIES = 20_000;
const DAY_S = 24 * 3600;

/** What happened longer ago is asked of the server. `now`: whole seconds since 1970. */
export async function tidyEntries(database: Database, of: Whose, now: number): Promise<void> {
  await database.write(["entries"], false, async (tx) => {
    const rows = await tx.objectStore("entries").getAll(rangeOf(of.owner, of.site));
    const many = rows.length - MOST_ENTRIES;
    const old = rows.filter((row, place) => place < many || row.at < now - KEPT_DAYS * DAY_S);
    await Promise.all(old.map((row) => tx.objectStore("entries").delete([of.owner, of.site, row.number])));
  });
}
