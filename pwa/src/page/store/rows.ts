/** The rows of one owner's site in the phone's database, read and written inside the caller's transaction. */

import { type Reading, rangeOf, type Writing } from "./database";
import {
  type Head,
  type Kept,
  type KeptNight,
  nothingKept,
  type OutboxEdit,
  type Overlaid,
  type PulledRecord,
  type Removed,
} from "./kept";
import { byPlace } from "./laying";
import type { Taken } from "./pulled";
import type { Waiting } from "./shapes";

type Owned = Pick<Kept, "owner" | "site">;

export const COPY = ["heads", "records", "removed", "waiting"] as const;
export const NIGHTS = ["nights", "entries", "alarms", "followed"] as const;
export const OWN = ["outbox", "overlaid"] as const;

export async function headIn(tx: Reading | Writing, of: Owned): Promise<Head | null> {
  return (await tx.objectStore("heads").get([of.owner, of.site]))?.head ?? null;
}

/** Everything but the nights. */
export async function copyIn(tx: Reading | Writing, of: Owned): Promise<Kept> {
  const range = rangeOf(of.owner, of.site);
  const [head, records, removed, waiting, own] = await Promise.all([
    headIn(tx, of),
    tx.objectStore("records").getAll(range),
    tx.objectStore("removed").getAll(range),
    tx.objectStore("waiting").getAll(range),
    ownIn(tx, of),
  ]);
  return {
    ...nothingKept(of.owner, of.site),
    head,
    records: new Map(records.map(({ key, record, versions, order }) => [key, { record, versions, order }])),
    removed: new Map(removed.map(({ owner: _o, site: _s, key, ...one }): [string, Removed] => [key, one])),
    waiting: new Map(waiting.map((row) => [row.id, row.waiting])),
    ...own,
  };
}

/** One's own edits at all sites: an outbox belongs to a person. Answered ones may still be laid over a copy. */
export async function ownIn(
  tx: Reading | Writing,
  of: Pick<Kept, "owner">,
): Promise<{ outbox: OutboxEdit[]; overlaid: Overlaid[] }> {
  const [outbox, overlaid] = await Promise.all([
    tx.objectStore("outbox").getAll(),
    tx.objectStore("overlaid").getAll(),
  ]);
  const own = (edit: OutboxEdit) => edit.person === of.owner;
  return { outbox: outbox.filter(own).sort(byPlace), overlaid: overlaid.filter(own).sort(byPlace) };
}

/** The nights from a date on, so many at most. */
export async function nightsIn(
  tx: Reading | Writing,
  of: Owned,
  from = "",
  most?: number,
): Promise<Map<string, KeptNight>> {
  const range = IDBKeyRange.bound([of.owner, of.site, from], [of.owner, of.site, []]);
  const rows = await tx.objectStore("nights").getAll(range, most);
  return new Map(rows.map(({ owner: _o, site: _s, ...night }): [string, KeptNight] => [night.night, night]));
}

/** Write what a pull has touched: records and cursor in one transaction. */
export async function writePull(tx: Writing, taken: Taken): Promise<void> {
  const { kept } = taken;
  const of = { owner: kept.owner, site: kept.site };
  if (taken.fresh) await dropCopy(tx, of);
  await inPortions(taken.records, (key) => put(tx, "records", of, key, kept.records.get(key)));
  await Promise.all([
    ...taken.removed.map((key) => put(tx, "removed", of, key, kept.removed.get(key))),
    ...taken.waiting.map((id) => putWaiting(tx, of, id, kept.waiting.get(id))),
    ...taken.nights.map((night) => putNight(tx, of, kept.nights.get(night))),
    kept.head ? tx.objectStore("heads").put({ ...of, head: kept.head }) : null,
  ]);
}

/** A first copy has thousands of records: between portions the screen may be drawn and a tap be heard. */
const PORTION = 100;

async function inPortions<Item>(items: readonly Item[], write: (item: Item) => Promise<unknown>): Promise<void> {
  for (let from = 0; from < items.length; from += PORTION) {
    await Promise.all(items.slice(from, from + PORTION).map(write));
  }
}

function put(
  tx: Writing,
  store: "records" | "removed",
  of: Owned,
  key: string,
  row: PulledRecord | Removed | undefined,
) {
  const found = tx.objectStore(store);
  if (!row) return found.delete([of.owner, of.site, key]);
  return found.put({ ...of, key, ...(row as PulledRecord & Removed) });
}

async function putWaiting(tx: Writing, of: Owned, id: string, waiting: Waiting | undefined): Promise<void> {
  if (waiting) await tx.objectStore("waiting").put({ ...of, id, waiting });
}

export async function putNight(tx: Writing, of: Owned, night: KeptNight | undefined): Promise<void> {
  if (night) await tx.objectStore("nights").put({ ...of, ...night });
}

/** The copy leaves the phone; one's own edits stay. */
export async function dropCopy(tx: Writing, of: Owned): Promise<void> {
  await Promise.all(COPY.map((store) => tx.objectStore(store).delete(rangeOf(of.owner, of.site))));
}

/** The nights, and what happened in them. */
export async function dropNights(tx: Writing, of: Owned): Promise<void> {
  await Promise.all(NIGHTS.map((store) => tx.objectStore(store).delete(rangeOf(of.owner, of.site))));
}
