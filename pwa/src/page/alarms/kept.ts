/** The rows of the alarms in the phone's database. */

import type { Whose } from "../journal/kept";
import { NOTHING_FOLLOWED } from "../journal/shapes";
import { type Database, rangeOf } from "../store/database";
import type { Alarm, AlarmPage } from "./shapes";

export const KEPT_DAYS = 14;
const DAY_S = 24 * 3600;
const GRAVITIES = ["grave", "serious", "minor"];

/** Open ones first, the gravest before the others; then the newest. */
export async function alarmsOf(database: Database, of: Whose): Promise<Alarm[]> {
  const rows = await database.read(["alarms"], (tx) => tx.objectStore("alarms").getAll(rangeOf(of.owner, of.site)));
  return rows.map((row) => row.alarm).sort(inOrder);
}

export function inOrder(one: Alarm, other: Alarm): number {
  return rank(one) - rank(other) || other.since - one.since || (one.id < other.id ? -1 : 1);
}

function rank(alarm: Alarm): number {
  return alarm.ended ? GRAVITIES.length : GRAVITIES.indexOf(alarm.gravity);
}

/** Keep a page and how far it leads in one transaction. `now`: by the server's clock. False: another tab has gone on
 * meanwhile, or the server's count has begun anew, as after a backup was brought back. */
export async function takeAlarms(
  database: Database,
  of: Whose,
  since: number,
  now: number,
  page: AlarmPage,
): Promise<boolean> {
  return await database.write(["alarms", "followed"], false, async (tx) => {
    const rows = tx.objectStore("alarms");
    const row = await tx.objectStore("followed").get([of.owner, of.site]);
    const followed = row?.followed ?? NOTHING_FOLLOWED;
    if (followed.alarms !== since) return false;
    const lost = page.newest < since;
    if (lost) await rows.delete(rangeOf(of.owner, of.site));
    await Promise.all(page.alarms.map((alarm) => rows.put({ ...of, id: alarm.id, alarm })));
    const count = lost ? 0 : page.next === null ? page.newest : Number(page.next);
    const people = { ...followed.people, ...page.names };
    const told = { caution: page.caution, as_of: now };
    await tx.objectStore("followed").put({ ...of, followed: { ...followed, ...told, alarms: count, people } });
    return !lost;
  });
}

/** One alarm as the server has just answered it. */
export async function putAlarm(database: Database, of: Whose, alarm: Alarm): Promise<void> {
  await database.write(["alarms"], false, async (tx) => {
    await tx.objectStore("alarms").put({ ...of, id: alarm.id, alarm });
  });
}

/** Those that ended long ago are asked of the server. */
export async function tidyAlarms(database: Database, of: Whose, now: number): Promise<void> {
  await database.write(["alarms"], false, async (tx) => {
    for (const { id, alarm } of await tx.objectStore("alarms").getAll(rangeOf(of.owner, of.site))) {
      const old = alarm.ended !== null && alarm.ended.at < now - KEPT_DAYS * DAY_S;
      if (old) await tx.objectStore("alarms").delete([of.owner, of.site, id]);
    }
  });
}
