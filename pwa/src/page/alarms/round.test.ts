/** Alarms as the phone follows them: those that changed come once, and go on from where they stood. */

import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it } from "vitest";
import { followedBy } from "../journal/kept";
import { LineFault } from "../line/fetching";
import { Database } from "../store/database";
import { alarmsOf, inOrder, tidyAlarms } from "./kept";
import { alarmRound } from "./round";
import type { Alarm, AlarmPage } from "./shapes";

const NOW = 1_790_000_000;
const OF = { owner: "ines", site: "park" };
let number = 0;
let database: Database;

beforeEach(() => {
  database = new Database(`alarms ${number++}`);
});
afterEach(() => database.close());

function an(id: string, change: number, more: Partial<Alarm> = {}): Alarm {
  const said = { code: "finding.unasked", params: {}, detail: "Water with nothing open." };
  return {
    ...{
      id,
      change,
      night: "2026-07-10",
      last_night: "2026-07-10",
      kind: "unasked",
      gravity: "serious",
      supply: "north",
    },
    ...{ controller: null, station: null, size_lpm: 6, lost_l: 60, since: NOW - 600, opened_at: NOW - 300, spells: [] },
    ...{ said, culprits: [], trial: { stations: [], said: null }, seen: [], explained: null, ended: null },
    ...more,
  };
}

/** A server with these alarms, two on a page. */
function server(alarms: readonly Alarm[]) {
  const asked: string[] = [];
  const ask = async (path: string): Promise<AlarmPage> => {
    asked.push(path);
    const since = Number(new URL(path, "http://x").searchParams.get("since"));
    const left = alarms.filter((one) => one.change > since).sort((one, other) => one.change - other.change);
    const page = left.slice(0, 2);
    const newest = Math.max(0, ...alarms.map((one) => one.change));
    const caution = { code: "alarm.caution", params: {}, detail: "Caution" };
    return { alarms: page, names: {}, next: left.length > 2 ? String(page[1]?.change) : null, newest, caution };
  };
  return { ask, asked };
}

const round = (ask: (path: string) => Promise<unknown>) => alarmRound({ database, of: OF, ask, now: NOW });
const known = async () => (await alarmsOf(database, OF)).map((alarm) => [alarm.id, alarm.change]);

it("come page by page, and then only those that changed", async () => {
  const first = server([an("a", 1), an("b", 2), an("c", 3)]);
  expect(await round(first.ask)).toEqual({ how: "in_step" });
  expect(first.asked).toHaveLength(2);
  const later = server([
    an("a", 1),
    an("b", 4, { ended: { at: NOW, by: "server", why: an("b", 4).said } }),
    an("c", 3),
  ]);
  await round(later.ask);
  expect(later.asked).toEqual(["/api/sites/park/alarms?since=3&limit=200"]);
  expect(await known()).toEqual([
    ["a", 1],
    ["c", 3],
    ["b", 4],
  ]);
  expect(await followedBy(database, OF)).toMatchObject({ alarms: 4, as_of: NOW, caution: { code: "alarm.caution" } });
});

it.each<[string, () => Promise<unknown>, string]>([
  ["a broken line", () => Promise.reject(new LineFault(0, "")), "silent"],
  ["a server in trouble", () => Promise.reject(new LineFault(503, "")), "silent"],
  ["JSON of somebody else", async () => ({ welcome: "guest" }), "silent"],
  ["a site that may not be read", () => Promise.reject(new LineFault(404, "")), "in_step"],
])("what was known stays where there is %s", async (_, ask, how) => {
  await round(server([an("a", 1)]).ask);
  expect((await round(ask)).how).toBe(how);
  expect(await known()).toEqual([["a", 1]]);
});

it("begin anew where the server's count does", async () => {
  await round(server([an("a", 8)]).ask);
  const restored = server([an("b", 2)]);
  expect((await round(restored.ask)).how).toBe("later");
  expect((await round(restored.ask)).how).toBe("in_step");
  expect(await known()).toEqual([["b", 2]]);
});

it("stand in order: those that last, the gravest first", () => {
  const over = an("over", 1, { gravity: "grave", ended: { at: NOW, by: "server", why: an("x", 1).said } });
  const [small, grave] = [an("small", 2, { gravity: "minor" }), an("grave", 3, { gravity: "grave" })];
  expect([over, small, grave].sort(inOrder).map((one) => one.id)).toEqual(["grave", "small", "over"]);
});

it("that ended long ago leave the phone", async () => {
  const why = an("x", 1).said;
  const old = an("old", 1, { ended: { at: NOW - 15 * 24 * 3600, by: "server", why } });
  await round(server([old, an("open", 2)]).ask);
  await tidyAlarms(database, OF, NOW);
  expect(await known()).toEqual([["open", 2]]);
});
