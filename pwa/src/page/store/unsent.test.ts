/** What waits on a phone is counted whole, each person's by itself, and keeps a site's copy for as long as it can be sent. */

import "fake-indexeddb/auto";
import { afterEach, expect, it } from "vitest";
import { Database, type PhoneSchema } from "./database";
import { Store } from "./store";
import { countsOf, othersOf, restsKey, UNSENT, waitsIn } from "./unsent";

const INES = { owner: "ines", site: "park" };
let number = 0;
const opened: Database[] = [];

function aDatabase(): Database {
  const database = new Database(`unsent-${number++}`);
  opened.push(database);
  return database;
}

afterEach(async () => {
  await Promise.all(opened.splice(0).map((database) => database.close()));
});

type Row<Name extends "outbox" | "told" | "photos"> = Partial<PhoneSchema[Name]["value"]>;

async function hold<Name extends "outbox" | "told" | "photos">(database: Database, name: Name, row: Row<Name>) {
  const whole = { id: `${name}-${number++}`, person: INES.owner, site: INES.site, ...row };
  await database.write([name], true, async (tx) => {
    await tx.objectStore(name).put(whole as PhoneSchema[Name]["value"]);
  });
}

const tell = (database: Database, row: Row<"told"> = {}) =>
  hold(database, "told", { taken: false, faults: null, ...row });
const take = (database: Database, row: Row<"photos">) => hold(database, "photos", row);

async function accept(database: Database, of: { owner: string; site: string }, fault: string | null = null) {
  await database.write(["about"], true, async (tx) => {
    await tx.objectStore("about").put([{ given: { person: of.owner }, fault }], restsKey(of));
  });
}

const waits = (database: Database) => database.read([...UNSENT], (tx) => waitsIn(tx));

async function drop(database: Database, part: readonly ("told" | "photos" | "about" | "outbox")[]) {
  await database.write([...part], true, async (tx) => {
    for (const name of part) await tx.objectStore(name).clear();
  });
}

it("edits, entries, photos and accepted rests are counted; what the server has, and what is only held, is not", async () => {
  const database = aDatabase();
  await hold(database, "outbox", {});
  await hold(database, "outbox", { site: "elsewhere" });
  await tell(database);
  await tell(database, { taken: true });
  await tell(database, { faults: [{ field: null, code: "x", detail: "No." }] });
  for (const state of ["waits", "refused", "held", "sent"] as const) await take(database, { state });
  await accept(database, INES);
  await accept(database, { owner: "ines", site: "a:b" });
  expect(countsOf(await waits(database), "ines")).toEqual({ edits: 2, entries: 2, photos: 2, rests: 2 });
  expect((await waits(database)).filter((one) => one.kind === "rests").map((one) => one.site)).toEqual(["a:b", "park"]);
});

it("what others have is theirs, by the name they had here", async () => {
  const database = aDatabase();
  await tell(database, { person: "rui" });
  await take(database, { person: "rui", state: "waits" });
  await take(database, { person: "salma", state: "waits" });
  const found = await waits(database);
  expect(countsOf(found, "ines")).toEqual({ edits: 0, entries: 0, photos: 0, rests: 0 });
  expect(othersOf(found, "ines", new Map([["rui", "Rui Prates"]]))).toEqual([
    { person: "rui", name: "Rui Prates", count: 2 },
    { person: "salma", name: "salma", count: 1 },
  ]);
});

it.each([
  ["an edit", (database: Database) => hold(database, "outbox", {})],
  ["an entry", (database: Database) => tell(database)],
  ["a photo", (database: Database) => take(database, { state: "waits" })],
  ["an accepted rest", (database: Database) => accept(database, INES)],
])("the copy stays while %s could still be sent, and leaves once it was", async (_what, put) => {
  const database = aDatabase();
  const store = new Store(database, INES.owner, INES.site);
  await put(database);
  expect(await store.forgetSite()).toBe(false);
  await drop(database, ["outbox", "told", "photos", "about"]);
  expect(await store.forgetSite()).toBe(true);
});

it("what the server would not have, and what others wait with, holds no copy back, and stays", async () => {
  const database = aDatabase();
  await tell(database, { faults: [{ field: null, code: "x", detail: "No." }] });
  await take(database, { state: "refused" });
  await accept(database, INES, "Another rest is in force.");
  await tell(database, { person: "rui" });
  await take(database, { site: "elsewhere", state: "waits" });
  expect(await new Store(database, INES.owner, INES.site).forgetSite()).toBe(true);
  expect(await waits(database)).toHaveLength(5);
});
