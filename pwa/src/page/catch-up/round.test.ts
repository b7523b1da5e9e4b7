/** A rest that was accepted here is sent with all else that is unsent, once, whichever room is open; after what was told. */

import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it } from "vitest";
import { keepTold } from "../journal/kept";
import { type Delivery, JournalServer } from "../journal/model-server";
import type { Reply, Send } from "../line/line";
import { aNight, aRun, NOON } from "../night/builders";
import type { NightSheet } from "../night/sheet";
import { Database } from "../store/database";
import { Store } from "../store/store";
import { type AcceptedRow, acceptedOf, dropAccepted, keepAccepted } from "./kept";
import { ownRound } from "./round";

const PARK = { owner: "ines", site: "park" };
const BEFORE = aNight([aRun()]);
const AFTER = aNight([aRun({ start: NOON + 36_000 })]);
const OWN = aNight([aRun({ start: NOON + 43_200 })]);
const CLOCK = { zone: "UTC" } as never;
let number = 0;
let database: Database;
let park: Store;
let journal: JournalServer;
/** Ids in the order in which the server took them; and those that it will not have. */
let arrived: string[];
let refused: Set<string>;

beforeEach(() => {
  database = new Database(`rests ${number++}`);
  park = new Store(database, PARK.owner, PARK.site);
  journal = new JournalServer();
  [arrived, refused] = [[], new Set()];
});
afterEach(() => database.close());

/** As `accepting.ts` does it: written down, and laid over the night. */
async function accept(before: NightSheet, sheet: NightSheet, of = PARK): Promise<string> {
  const id = `rest-${number++}`;
  const about = { night: before.night, at: NOON, way: "recover" as const, effort: 8, promised: [] };
  await keepAccepted(database, of, { given: { id, person: of.owner, ...about }, before, fault: null });
  if (of.site === PARK.site) await park.keepNight(night(sheet, id));
  return id;
}

function night(sheet: NightSheet, accepted?: string) {
  return { night: sheet.night, sheet, clock: CLOCK, good_for: 0, ...(accepted ? { accepted } : {}) };
}

/** The server of journals, which takes rests as well, over a line that delivers these calls as its words say. */
function line(deliveries: Delivery[] = []): Send {
  const taking: Delivery[] = deliveries;
  return async (path, body) => {
    if (!path.endsWith("/nights/tonight/catch-up")) return await journal.line()(path, body);
    return await delivered(taking.shift() ?? "sound", () => take(body as AcceptedRow["given"]));
  };
}

async function delivered(how: Delivery, take: () => Reply): Promise<Reply> {
  if (how === "lost") return { status: 0, ours: false, body: null, wait_ms: null };
  if (how === "login page") return { status: 200, ours: false, body: null, wait_ms: null };
  if (how === "busy") return { status: 503, ours: true, body: {}, wait_ms: 1000 };
  if (how === "signed out") return { status: 401, ours: true, body: {}, wait_ms: null };
  const reply = take();
  return how === "reply lost" ? { status: 0, ours: false, body: null, wait_ms: null } : reply;
}

function take({ id }: AcceptedRow["given"]): Reply {
  if (refused.has(id)) return { status: 409, ours: true, body: { detail: "That night is over." }, wait_ms: null };
  if (!arrived.includes(id)) arrived.push(id);
  return { status: 200, ours: true, body: { id }, wait_ms: null };
}

const speak = (deliveries: Delivery[] = [], send: Send = line(deliveries)) =>
  ownRound({
    database,
    of: PARK,
    send,
    now: NOON,
    putBack: async (site, kept) => (site === park.site ? await park.keepNight(kept) : undefined),
  });
const left = async (of = PARK) => (await acceptedOf(database, of)).map(({ given, fault }) => [given.id, fault]);
const shown = () => park.kept.nights.get(BEFORE.night)?.sheet;

/** As another page would find it. */
async function onDisk(): Promise<NightSheet | undefined> {
  const again = new Store(database, PARK.owner, PARK.site);
  await again.loadNights();
  return again.kept.nights.get(BEFORE.night)?.sheet;
}

it("rests of all sites are sent in their order, and leave the phone", async () => {
  const elsewhere = { owner: "ines", site: "a:b" };
  const ids = [await accept(BEFORE, AFTER, elsewhere), await accept(BEFORE, AFTER), await accept(AFTER, OWN)];
  expect(await speak()).toEqual({ how: "in_step" });
  expect([arrived, await left(), await left(elsewhere)]).toEqual([ids, [], []]);
  expect(shown()).toEqual(OWN);
});

it.each<Delivery>(["lost", "login page", "busy", "signed out"])("a rest waits where the line is: %s", async (how) => {
  const id = await accept(BEFORE, AFTER);
  expect((await speak([how])).how).toBe("silent");
  expect([await left(), arrived, shown()]).toEqual([[[id, null]], [], AFTER]);
  await speak();
  expect([await left(), arrived]).toEqual([[], [id]]);
});

it("a rest whose answer was lost is sent again, and taken once", async () => {
  const id = await accept(BEFORE, AFTER);
  expect((await speak(["reply lost"])).how).toBe("silent");
  await speak();
  expect([await left(), arrived]).toEqual([[], [id]]);
});

it("what was told is told first, and while it cannot be, no rest is sent", async () => {
  const id = await accept(BEFORE, AFTER);
  const entry = { id: "power", kind: "power_lost" as const, at: NOON };
  const row = { id: entry.id, person: PARK.owner, site: PARK.site, entry, kept_at: NOON, taken: false, faults: null };
  await keepTold(database, [row]);
  const sound = line();
  const halfDeaf: Send = (path, body) =>
    path.endsWith("/journal") ? journal.line(["busy"])(path, body) : sound(path, body);
  expect((await speak([], halfDeaf)).how).toBe("silent");
  expect([await left(), arrived]).toEqual([[[id, null]], []]);
  await speak();
  expect([journal.taken.map((one) => one.entry.id), arrived]).toEqual([["power"], [id]]);
});

it("one that the server will not have waits with what it said, gives the night back, and delays no other", async () => {
  const elsewhere = { owner: "ines", site: "zoo" };
  const [bad, good] = [await accept(BEFORE, AFTER), await accept(BEFORE, AFTER, elsewhere)];
  refused.add(bad);
  expect(await speak()).toEqual({ how: "in_step" });
  expect([await left(), arrived]).toEqual([[[bad, "That night is over."]], [good]]);
  expect([shown(), await onDisk()]).toEqual([BEFORE, BEFORE]);
  refused.clear();
  await speak();
  expect(arrived).toEqual([good]);
  await dropAccepted(database, PARK, bad);
  expect(await left()).toEqual([]);
});

it("the server's own night, come meanwhile, stays where a rest is turned away", async () => {
  refused.add(await accept(BEFORE, AFTER));
  await park.keepNight(night(OWN));
  await speak();
  expect([shown(), await onDisk()]).toEqual([OWN, OWN]);
});

it("where both of two in a row are turned away, the night is as it was before the first", async () => {
  const [first, second] = [await accept(BEFORE, AFTER), await accept(AFTER, OWN)];
  for (const id of [first, second]) refused.add(id);
  await speak();
  expect(await left()).toEqual([
    [first, "That night is over."],
    [second, "That night is over."],
  ]);
  expect([shown(), await onDisk()]).toEqual([BEFORE, BEFORE]);
});

it("where the first of two is turned away, the second still stands on the screen", async () => {
  const [first, second] = [await accept(BEFORE, AFTER), await accept(AFTER, OWN)];
  refused.add(first);
  await speak();
  expect([arrived, shown()]).toEqual([[second], OWN]);
});

it("nothing is sent as somebody else", async () => {
  const rui = { owner: "rui", site: "park" };
  const id = `rest-${number++}`;
  const about = { night: BEFORE.night, at: NOON, way: "keep" as const, effort: 8, promised: [] };
  await keepAccepted(database, rui, { given: { id, person: "rui", ...about }, before: BEFORE, fault: null });
  await speak();
  expect([arrived, await left(rui)]).toEqual([[], [[id, null]]]);
});
