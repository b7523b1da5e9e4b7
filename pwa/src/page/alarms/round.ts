/** Ask for the alarms that changed. */

import { followedBy, type Whose } from "../journal/kept";
import { LineFault } from "../line/fetching";
import type { Database } from "../store/database";
import type { Ending } from "../sync/round";
import { takeAlarms } from "./kept";
import type { AlarmPage } from "./shapes";

export interface AlarmParts {
  database: Database;
  of: Whose;
  /** Ask the server; raises `LineFault`. */
  ask: (path: string) => Promise<unknown>;
  now: number;
}

const MOST_ROUNDS = 50;
const IN_ONE_GO = 200;

export async function alarmRound(parts: AlarmParts): Promise<Ending> {
  const { database, of, now } = parts;
  for (let turn = 0; turn < MOST_ROUNDS; turn++) {
    const { alarms: since } = await followedBy(database, of);
    const path = `/api/sites/${encodeURIComponent(of.site)}/alarms?since=${since}&limit=${IN_ONE_GO}`;
    const page = await pageAt(parts, path);
    if (page === "silent") return { how: "silent", wait_ms: null };
    if (page === "closed") return { how: "in_step" };
    if (!(await takeAlarms(database, of, since, now, page))) return { how: "later" };
    if (page.next === null) return { how: "in_step" };
  }
  return { how: "later" };
}

/** `closed`: who reads may not see them, and is told so by sync itself. `silent`: no answer, or none of ours. */
async function pageAt({ ask }: AlarmParts, path: string): Promise<AlarmPage | "silent" | "closed"> {
  try {
    const page = (await ask(path)) as Partial<AlarmPage> | undefined;
    const ours = Array.isArray(page?.alarms) && typeof page.newest === "number" && page.caution !== undefined;
    return ours ? (page as AlarmPage) : "silent";
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    return [403, 404].includes(fault.status) ? "closed" : "silent";
  }
}
