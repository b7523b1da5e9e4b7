/** Keeping and taking back, on a phone with a database of its own. */

import "fake-indexeddb/auto";
import { expect, it } from "vitest";
import { Database } from "../store/database";
import type { Page } from "../store/pulled";
import type { Answer, Change, Role } from "../store/shapes";
import { Store } from "../store/store";
import { keepIn, takeBackIn } from "./acts";

const STATION = { table: "stations", id: "s1", number: "11", name: "Rose bed" };
let number = 0;

function aPage(role: Role | null, given: Partial<Page> = {}): Page {
  return {
    site: "here",
    fresh: true,
    first: true,
    cursor: 5,
    scope: "e.1",
    next: null,
    revision: 5,
    format: 1,
    role,
    records: [{ record: STATION, versions: {}, order: 0 }],
    removals: [],
    waiting: [],
    people: {},
    sheets: null,
    ...given,
  };
}

async function aStore(role: Role | null = "lead", owner = "ines"): Promise<Store> {
  const store = new Store(new Database(`acts ${number++}`), owner, "here");
  await store.load();
  await store.takePull(store.asked, [aPage(role)]);
  return store;
}

const name = (now: string): Change => ({ kind: "set", table: "stations", record: "s1", field: "name", now });
const outcome = (store: Store, outcome: Answer["outcome"], revision = 6): Answer[] =>
  store.kept.outbox.map((edit) => ({ id: edit.id, set: edit.set, outcome, version: 2, revision }));

async function sent(store: Store, said: Answer["outcome"]): Promise<void> {
  await store.nextPush(null);
  await store.takeAnswers(outcome(store, said));
}

it("what is unsent is thrown away, and remembered as discarded", async () => {
  const store = await aStore();
  const act = await keepIn(store, [name("Long lawn")]);
  expect(await takeBackIn(store, act)).toEqual({ act: "", decide: [] });
  expect(store.kept.outbox).toEqual([]);
  expect(await store.recent(9)).toMatchObject([{ how: "discarded", by: "ines", answer: null }]);
  expect(await takeBackIn(store, act)).toEqual({ act: "", decide: [] });
});

it("what took an unsent edit's place goes back to what that one had set", async () => {
  const store = await aStore();
  await keepIn(store, [name("Long lawn")]);
  const act = await keepIn(store, [name("Orchard")]);
  await takeBackIn(store, act);
  expect(store.kept.outbox).toMatchObject([{ now: "Long lawn", was: "Rose bed", seen: 1 }]);
});

it("what was sent is set back by an act of its own, answered or not", async () => {
  const store = await aStore();
  const act = await keepIn(store, [name("Long lawn")]);
  await store.nextPush(null);
  const { act: back } = await takeBackIn(store, act);
  expect(store.kept.outbox.map((edit) => edit.now)).toEqual(["Long lawn", "Rose bed"]);
  await sent(store, "taken");
  await takeBackIn(store, back);
  expect(store.kept.outbox).toMatchObject([{ now: "Long lawn", seen: expect.any(String) }]);
});

it("what waits on the server can only be taken back there", async () => {
  for (const tray of ["disputed", "refused", "removed", "parked"] as const) {
    const store = await aStore();
    const act = await keepIn(store, [name("Long lawn")]);
    await sent(store, tray);
    const [row] = await store.recent(1);
    expect(await takeBackIn(store, act)).toEqual({ act: "", decide: [{ edit: row?.id, decision: "discard" }] });
  }
});

it("what is held is declined by a manager, and by nobody else", async () => {
  const [lead, manager] = [await aStore("crew"), await aStore("manager")];
  for (const store of [lead, manager]) await keepIn(store, [name("Long lawn")]);
  const acts = [lead, manager].map((store) => store.kept.outbox[0]?.together ?? "");
  for (const store of [lead, manager]) await sent(store, "held");
  await expect(takeBackIn(lead, acts[0] ?? "")).rejects.toMatchObject({ why: "not_yours" });
  expect((await takeBackIn(manager, acts[1] ?? "")).decide).toMatchObject([{ decision: "decline" }]);
});

it("strangers, phones without a copy and phones without storage keep nothing, and say why", async () => {
  await expect(keepIn(await aStore(null, ""), [name("x")])).rejects.toMatchObject({ why: "not_yours" });
  const empty = new Store(new Database(`acts ${number++}`), "ines", "here");
  await expect(keepIn(empty, [name("x")])).rejects.toMatchObject({ why: "no_site" });
  const memory = new Store(null, "ines", "here");
  await memory.takePull(memory.asked, [aPage("lead")]);
  await expect(keepIn(memory, [name("x")])).rejects.toMatchObject({ why: "storage" });
});

it("a full outbox takes no more, and keeps what it has", { timeout: 30_000 }, async () => {
  const store = await aStore();
  const much = Array.from(
    { length: 80 },
    (_, at): Change => ({
      kind: "set",
      table: "stations",
      record: `n${at}`,
      field: "notes",
      now: "x".repeat(25_000),
    }),
  );
  await keepIn(store, much);
  await expect(keepIn(store, much.slice(0, 20))).rejects.toMatchObject({ why: "outbox_full" });
  expect(store.kept.outbox).toHaveLength(80);
});

it("answered edits stay laid over the copy until the cursor has passed them, and no longer", async () => {
  const store = await aStore();
  await keepIn(store, [name("Long lawn")]);
  await sent(store, "taken");
  expect(store.kept.overlaid).toHaveLength(1);
  const passed = aPage("lead", { fresh: false, cursor: 6, revision: 6, records: [] });
  await store.takePull(store.asked, [{ ...passed, cursor: 5 }]);
  expect(store.kept.overlaid).toHaveLength(1);
  await store.takePull(store.asked, [passed]);
  expect(store.kept.overlaid).toHaveLength(0);
});

it("the copy stays while something is unsent, though access is gone", async () => {
  const store = await aStore();
  await keepIn(store, [name("Long lawn")]);
  expect(await store.forgetSite()).toBe(false);
  expect(store.kept.records.size).toBe(1);
  await sent(store, "held");
  expect(await store.forgetSite()).toBe(true);
  expect([store.kept.head, store.kept.records.size, store.kept.overlaid]).toEqual([null, 0, []]);
});

it("pages that another tab has overtaken are dropped: the cursor never falls", async () => {
  const store = await aStore();
  const other = new Store(store.database, "ines", "here");
  await other.load();
  const asked = other.asked;
  await store.takePull(store.asked, [aPage("lead", { fresh: false, cursor: 9, revision: 9, records: [] })]);
  expect(await other.takePull(asked, [aPage("lead", { fresh: false, cursor: 7, records: [] })])).toBe(false);
  expect(other.kept.head?.cursor).toBe(9);
});
