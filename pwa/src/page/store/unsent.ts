/** What waits on this phone for the server, besides being shown: edits, entries of journals, photos and accepted rests. */

import type { Reading, Stores, Writing } from "./database";
import type { Counts, Others } from "./shapes";

export type Kind = keyof Counts;

/** One thing that waits. `stuck`: the server has said no to it; it waits for its person, and not for a line. */
export interface Waits {
  person: string;
  site: string;
  kind: Kind;
  stuck: boolean;
}

export const UNSENT: Stores[] = ["outbox", "told", "photos", "about"];
export const NOTHING: Counts = { edits: 0, entries: 0, photos: 0, rests: 0 };

/** Everybody's, at every site. Of photos only the keys are read. */
export async function waitsIn(tx: Reading | Writing): Promise<Waits[]> {
  const [edits, told, photos, rests] = await Promise.all([
    tx.objectStore("outbox").getAll(),
    tx.objectStore("told").getAll(),
    photosIn(tx),
    restsIn(tx),
  ]);
  return [
    ...edits.map(({ person, site }): Waits => ({ person, site, kind: "edits", stuck: false })),
    ...told
      .filter((row) => !row.taken)
      .map(({ person, site, faults }): Waits => ({ person, site, kind: "entries", stuck: faults !== null })),
    ...photos,
    ...rests,
  ];
}

async function photosIn(tx: Reading | Writing): Promise<Waits[]> {
  const found: Waits[] = [];
  const index = tx.objectStore("photos").index("state");
  for (let at = await index.openKeyCursor(); at; at = await at.continue()) {
    const [person, site, state] = at.key;
    if (state === "waits" || state === "refused") {
      found.push({ person, site, kind: "photos", stuck: state === "refused" });
    }
  }
  return found;
}

const RESTS = "caught-up:";

/** Where the rests that somebody accepted at a site lie among the phone's notes. */
export function restsKey({ owner, site }: { owner: string; site: string }): string {
  return `${RESTS}${owner}:${site}`;
}

/** What is read of an accepted rest here. */
interface Rest {
  given: { person: string };
  fault: string | null;
}

async function restsIn(tx: Reading | Writing): Promise<Waits[]> {
  const found: Waits[] = [];
  const range = IDBKeyRange.bound(RESTS, `${RESTS}\uffff`);
  for (let at = await tx.objectStore("about").openCursor(range); at; at = await at.continue()) {
    for (const { given, fault } of at.value as Rest[]) {
      const site = String(at.key).slice(restsKey({ owner: given.person, site: "" }).length);
      found.push({ person: given.person, site, kind: "rests", stuck: fault !== null });
    }
  }
  return found;
}

export function countsOf(waits: readonly Waits[], person: string): Counts {
  const counts = { ...NOTHING };
  for (const one of waits) if (one.person === person) counts[one.kind] += 1;
  return counts;
}

export function totalOf({ edits, entries, photos, rests }: Counts): number {
  return edits + entries + photos + rests;
}

/** Whether something of a person's at a site could still be sent: then the site's copy stays. */
export function isToBeSent(waits: readonly Waits[], { owner, site }: { owner: string; site: string }): boolean {
  return waits.some((one) => one.person === owner && one.site === site && !one.stuck);
}

/** The other people of whom something waits. `names`: as they were called when they were last signed in here. */
export function othersOf(waits: readonly Waits[], own: string, names: ReadonlyMap<string, string>): Others[] {
  const people = new Set(waits.map((one) => one.person).filter((person) => person !== own));
  return [...people].map((person) => {
    return { person, name: names.get(person) ?? person, count: totalOf(countsOf(waits, person)) };
  });
}
