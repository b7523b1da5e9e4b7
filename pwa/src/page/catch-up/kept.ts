/** The rests of a night that were accepted here, in the phone's database until the server has them. */

import type { Whose } from "../journal/kept";
import type { NightSheet } from "../night/sheet";
import type { Database, Reading, Writing } from "../store/database";
import type { KeptNight } from "../store/kept";
import { putNight } from "../store/rows";
import { restsKey } from "../store/unsent";
import type { Offer, Rest } from "./rests";

/** What the server is sent. `at`: for which instant the rest was worked out. */
export interface Acceptance {
  id: string;
  person: string;
  night: string;
  at: number;
  way: Rest["way"];
  effort: number;
  promised: Offer["promised"];
}

/** An acceptance that is not the server's yet. `before`: what comes back if it is turned away, with `fault`. */
export interface AcceptedRow {
  given: Acceptance;
  before: NightSheet;
  fault: string | null;
}

/** Those of a site, in the order in which they were accepted. */
export async function acceptedOf(database: Database, of: Whose): Promise<AcceptedRow[]> {
  return await database.read(["about"], (tx) => rowsIn(tx, of));
}

/** A person's at every site. Raises `StorageFault`. */
export async function allAccepted(database: Database, owner: string): Promise<(AcceptedRow & { site: string })[]> {
  const before = restsKey({ owner, site: "" });
  return await database.read(["about"], async (tx) => {
    const found: (AcceptedRow & { site: string })[] = [];
    const range = IDBKeyRange.bound(before, `${before}\uffff`);
    for (let at = await tx.objectStore("about").openCursor(range); at; at = await at.continue()) {
      const site = String(at.key).slice(before.length);
      const own = (at.value as AcceptedRow[]).filter(({ given }) => given.person === owner);
      found.push(...own.map((row) => ({ ...row, site })));
    }
    return found;
  });
}

/** On the disk when this resolves. Raises `StorageFault`. */
export async function keepAccepted(database: Database, of: Whose, row: AcceptedRow): Promise<void> {
  await change(database, of, (rows) => [...rows, row]);
}

/** The server has it, or its person has read why it was turned away. */
export async function dropAccepted(database: Database, of: Whose, id: string): Promise<void> {
  await change(database, of, (rows) => rows.filter(({ given }) => given.id !== id));
}

/** The server will not have it, as `fault` says. The night as it was before, where this rest is still what the phone
 * shows of it: what came from the server meanwhile stays. */
export async function turnAway(database: Database, of: Whose, id: string, fault: string): Promise<KeptNight | null> {
  return await database.write(["about", "nights"], true, async (tx) => {
    const rows = await rowsIn(tx, of);
    const turned = rows.find(({ given }) => given.id === id);
    if (!turned) return null;
    const { given, before } = turned;
    await tx.objectStore("about").put(
      rows.map((row) => (row === turned ? { ...row, fault } : afterTurned(row, turned, rows))),
      restsKey(of),
    );
    const held = await tx.objectStore("nights").get([of.owner, of.site, given.night]);
    if (held?.accepted !== id) return null;
    const night = { night: held.night, sheet: before, clock: held.clock, good_for: held.good_for };
    await putNight(tx, of, night);
    return night;
  });
}

/** The next one accepted for that night was worked out from the one that is no more: what comes back is what was before. */
function afterTurned(row: AcceptedRow, turned: AcceptedRow, rows: readonly AcceptedRow[]): AcceptedRow {
  const later = rows.slice(rows.indexOf(turned) + 1).find(({ given }) => given.night === turned.given.night);
  return row === later ? { ...row, before: turned.before } : row;
}

async function rowsIn(tx: Reading | Writing, of: Whose): Promise<AcceptedRow[]> {
  return ((await tx.objectStore("about").get(restsKey(of))) as AcceptedRow[] | undefined) ?? [];
}

async function change(
  database: Database,
  of: Whose,
  next: (rows: readonly AcceptedRow[]) => AcceptedRow[],
): Promise<void> {
  await database.write(["about"], true, async (tx) => {
    await tx.objectStore("about").put(next(await rowsIn(tx, of)), restsKey(of));
  });
}
