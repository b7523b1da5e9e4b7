/** The phone's database when the system is unkind: connections closed, promises that never settle, newer data. */

import "fake-indexeddb/auto";
import { openDB } from "idb";
import { afterEach, expect, it, vi } from "vitest";
import { Database, STEPS, StorageFault } from "./database";
import type { OutboxEdit } from "./kept";

let number = 0;
const opened: Database[] = [];

function aDatabase(patienceMs = 1000, name = `database ${number++}`): Database {
  const database = new Database(name, patienceMs);
  opened.push(database);
  return database;
}

afterEach(async () => {
  vi.restoreAllMocks();
  for (const database of opened.splice(0)) await database.close();
});

const put = (database: Database, value: unknown) =>
  database.write(["about"], true, async (tx) => {
    await tx.objectStore("about").put(value, "word");
  });
const got = (database: Database) => database.read(["about"], (tx) => tx.objectStore("about").get("word"));

it("keeps what was written, and writes strictly where asked", async () => {
  const database = aDatabase();
  await database.open();
  const transaction = vi.spyOn(IDBDatabase.prototype, "transaction");
  await put(database, "water");
  expect(transaction).toHaveBeenCalledWith(["about"], "readwrite", { durability: "strict" });
  expect(await got(database)).toBe("water");
});

it("opens anew where the system has closed the connection", async () => {
  const database = aDatabase();
  await put(database, "one");
  const close = vi.spyOn(IDBDatabase.prototype, "transaction").mockImplementationOnce(() => {
    throw new DOMException("The database connection is closing.", "InvalidStateError");
  });
  await put(database, "two");
  expect(close).toHaveBeenCalledTimes(2);
  expect(await got(database)).toBe("two");
});

it("writes all of it or nothing", async () => {
  const database = aDatabase();
  await put(database, "before");
  const failing = database.write(["about"], true, async (tx) => {
    await tx.objectStore("about").put("half", "word");
    throw new Error("halfway");
  });
  await expect(failing).rejects.toThrow("halfway");
  expect(await got(database)).toBe("before");
});

it("waits no longer for a write than it may take, and takes it back", async () => {
  const database = aDatabase(60);
  await put(database, "before");
  const never = database.write(["about"], true, async (tx) => {
    await tx.objectStore("about").put("after", "word");
    // It is never done: each answer is followed by another question.
    for (;;) await tx.objectStore("about").get("word");
  });
  await expect(never).rejects.toEqual(new StorageFault("late"));
  expect(await got(database)).toBe("before");
});

it("waits no longer for an answer than it may take, and nothing that nobody waits for fails", async () => {
  const never = aDatabase(60).read(["about"], async (tx) => {
    for (;;) await tx.objectStore("about").get("word");
  });
  await expect(never).rejects.toEqual(new StorageFault("late"));
  // A rejection that nobody hears fails the whole run.
  await new Promise((soon) => setTimeout(soon, 50));
});

it("says so where the browser refuses, and where a newer app has been here", async () => {
  const newer = await openDB("newer", 99);
  newer.close();
  await expect(aDatabase(1000, "newer").open()).rejects.toMatchObject({ why: "newer" });
  vi.spyOn(indexedDB, "open").mockImplementationOnce(() => {
    throw new DOMException("denied", "SecurityError");
  });
  await expect(aDatabase().open()).rejects.toMatchObject({ why: "refused" });
});

it("lets go for another tab that brings the database up to date", async () => {
  const database = aDatabase(1000, "shared");
  await put(database, "kept");
  const newer = await openDB("shared", STEPS.length + 1);
  expect(await newer.get("about" as never, "word" as never)).toBe("kept");
  newer.close();
});

it("of the first version goes on with what it holds, and has room for what happens at night", async () => {
  const old = new Database("grown", 1000, 1);
  const edit = { id: "e1", person: "ines", site: "s" } as OutboxEdit;
  await old.write(["outbox"], true, async (tx) => {
    await tx.objectStore("outbox").add(edit);
  });
  await old.close();
  const grown = aDatabase(1000, "grown");
  expect(await grown.read(["outbox"], (tx) => tx.objectStore("outbox").getAll())).toMatchObject([edit]);
  const empty = await grown.read(["told", "entries", "alarms", "followed"], (tx) =>
    Promise.all((["told", "entries", "alarms", "followed"] as const).map((name) => tx.objectStore(name).count())),
  );
  expect(empty).toEqual([0, 0, 0, 0]);
});

it("of the third version knows how each of its photos stands", async () => {
  const old = new Database("with photos", 1000, 3);
  const stood = {
    sent: [false, true, null],
    waits: [false, false, null],
    held: [true, false, null],
    refused: [false, false, "No."],
  };
  await old.write(["photos"], true, async (tx) => {
    for (const [id, [held, sent, fault]] of Object.entries(stood)) {
      await tx.objectStore("photos").put({ id, person: "ines", site: "s", held, sent, fault } as never);
    }
  });
  await old.close();
  const grown = aDatabase(1000, "with photos");
  const rows = await grown.read(["photos"], (tx) => tx.objectStore("photos").getAll());
  expect(rows.map((row) => [row.id, row.state])).toEqual(rows.map((row) => [row.id, row.id]));
  expect(rows).toHaveLength(4);
});
