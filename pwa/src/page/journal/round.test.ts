/** What a phone tells arrives once, over a line that loses, doubles and lies; and what came since comes to the phone. */

import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Database } from "../store/database";
import { Store } from "../store/store";
import { dropTold, entriesOf, followedBy, keepTold, tellAgain, tidyEntries, toldOf } from "./kept";
import { type Delivery, JournalServer } from "./model-server";
import { journalRound } from "./round";
import type { Said, Told } from "./shapes";

const NOW = 1_790_000_000;
const OF = { owner: "ines", site: "park" };
let number = 0;
let database: Database;
let server: JournalServer;

beforeEach(() => {
  database = new Database(`journal ${number++}`);
  server = new JournalServer();
});
afterEach(() => database.close());

async function told(said: Partial<Said> = {}, person = "ines", site = "park", at = NOW - 60): Promise<Told> {
  const entry: Told = { kind: "note", text: "Wet by the gate", ...said, id: `entry-${number++}`, at };
  const row = { id: entry.id, person, site, entry, kept_at: at, taken: false, faults: null };
  await keepTold(database, [row]);
  return entry;
}

const speak = (deliveries: Delivery[] = [], of = OF) =>
  journalRound({ database, of, send: server.line(deliveries), now: NOW });
const left = async (person = "ines") => (await toldOf(database, person)).map((row) => row.id);
const arrived = () => server.taken.map((one) => one.entry.id);

describe("an entry", () => {
  it("is on the disk before anybody says that it is kept", async () => {
    const transaction = vi.spyOn(IDBDatabase.prototype, "transaction");
    await told();
    expect(transaction).toHaveBeenCalledWith(["told"], "readwrite", { durability: "strict" });
    transaction.mockRestore();
  });

  it("leaves the outbox once it is in the copy, and is the same there", async () => {
    const entry = await told({ station: "n14" });
    expect(await speak()).toEqual({ how: "in_step" });
    expect(await left()).toEqual([]);
    expect(await entriesOf(database, OF)).toEqual([{ ...entry, number: 1, arrived_at: entry.at, by: "person:ines" }]);
    expect((await followedBy(database, OF)).names).toEqual({ "person:ines": "Inês" });
  });

  it.each<Delivery>(["lost", "login page", "busy", "signed out"])("waits where the line is: %s", async (how) => {
    const entry = await told();
    expect((await speak([how])).how).toBe("silent");
    expect([await left(), arrived()]).toEqual([[entry.id], []]);
    await speak();
    expect([await left(), arrived()]).toEqual([[], [entry.id]]);
  });

  it.each<Delivery>(["reply lost", "doubled"])("arrives once where the line is: %s", async (how) => {
    const [one, two] = [await told(), await told()];
    await speak([how]);
    await speak();
    expect([await left(), arrived()]).toEqual([[], [one.id, two.id]]);
    expect(await entriesOf(database, OF)).toHaveLength(2);
  });

  it("is still there, marked as taken, where the copy could not be asked for", async () => {
    const entry = await told();
    await speak(["sound", "lost"]);
    expect(await toldOf(database, "ines")).toMatchObject([{ id: entry.id, taken: true, faults: null }]);
    const calls = server.calls;
    await speak();
    expect([server.calls - calls, await left()]).toEqual([1, []]);
  });

  it("that is none waits for its person with what is wrong, and delays no other", async () => {
    const [bad, good] = [await told({ text: "" }), await told()];
    expect(await speak()).toEqual({ how: "in_step" });
    expect(arrived()).toEqual([good.id]);
    expect(await toldOf(database, "ines")).toMatchObject([
      { id: bad.id, faults: [{ field: "text", code: "missing" }] },
    ]);
    const calls = server.calls;
    await speak();
    expect(server.calls - calls).toBe(1);
    await dropTold(database, "ines", bad.id);
    expect(await left()).toEqual([]);
  });

  it("is never sent as, or dropped by, somebody else", async () => {
    const entry = await told();
    server.cookie = "rui";
    await speak([], { owner: "rui", site: "park" });
    await dropTold(database, "rui", entry.id);
    expect([await left(), arrived()]).toEqual([[entry.id], []]);
    // The session is somebody else's by now, and the app does not know it yet.
    expect((await speak()).how).toBe("silent");
    expect([await left(), arrived()]).toEqual([[entry.id], []]);
  });

  it("of a site where one works no more is set aside, and may be tried again", async () => {
    const [gone, here] = [await told({}, "ines", "gone"), await told()];
    server.closed.add("gone");
    await speak();
    expect(arrived()).toEqual([here.id]);
    expect(await toldOf(database, "ines")).toMatchObject([
      { id: gone.id, faults: [{ detail: "There is no such site." }] },
    ]);
    server.closed.clear();
    await tellAgain(database, "ines", gone.id);
    await speak();
    expect(arrived()).toEqual([here.id, gone.id]);
  });
});

describe("the copy", () => {
  it("comes page by page and goes on from where it stood", async () => {
    for (let made = 0; made < 5; made++) await told();
    await speak();
    expect((await entriesOf(database, OF)).map((entry) => entry.number)).toEqual([1, 2, 3, 4, 5]);
    expect((await followedBy(database, OF)).entries).toBe(5);
  });

  it("begins anew where the server's numbers do", async () => {
    for (let made = 0; made < 3; made++) await told();
    await speak();
    server.taken.splice(1);
    expect(await speak()).toEqual({ how: "later" });
    expect(await speak()).toEqual({ how: "in_step" });
    expect((await entriesOf(database, OF)).map((entry) => entry.number)).toEqual([1]);
  });

  it("holds the last nights", async () => {
    await told({}, "ines", "park", NOW - 20 * 24 * 3600);
    const recent = await told();
    await speak();
    await tidyEntries(database, OF, NOW);
    expect((await entriesOf(database, OF)).map((entry) => entry.id)).toEqual([recent.id]);
  });
});

it("stays with the site's copy for as long as something told is unsent, and leaves the phone with it", async () => {
  await told();
  await speak();
  const waits = await told();
  const opened = new Store(database, "ines", "park");
  await opened.load();
  expect(await opened.forgetSite()).toBe(false);
  expect(await left()).toEqual([waits.id]);
  await speak();
  expect(await opened.forgetSite()).toBe(true);
  expect([await entriesOf(database, OF), (await followedBy(database, OF)).entries]).toEqual([[], null]);
});
