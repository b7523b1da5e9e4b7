/** Photos on their way: kept until they are answered, sent as nobody else's, small, and none delayed by another. */

import "fake-indexeddb/auto";
import { afterEach, describe, expect, it, vi } from "vitest";
import { type Reply, SILENCE } from "../../line/line";
import { Database } from "../../store/database";
import { dropPhotos, keepPhoto, type PhotoRow, photoIn, releasePhotos, tidyPhotos, unsentPhotos } from "./kept";
import { fitted } from "./scaling";
import { digestOf, photoLine, photoRound } from "./sending";

const NOW = 1_800_000_000;
let number = 0;
const opened: Database[] = [];

function aDatabase(): Database {
  const database = new Database(`photos-${number++}`);
  opened.push(database);
  return database;
}

const bytes = (text: string) => new TextEncoder().encode(text).buffer as ArrayBuffer;

async function kept(database: Database, id: string, part: Partial<PhotoRow> = {}): Promise<void> {
  const row = { id, person: "ines", site: "park", kind: "image/jpeg", bytes: bytes(id), kept_at: NOW };
  await keepPhoto(database, { ...row, state: "waits", fault: null, ...part });
}

const ids = async (database: Database, person = "ines") => (await unsentPhotos(database, person)).map(({ id }) => id);
const ours = (status: number, body: unknown): Reply => ({ status, ours: true, body, wait_ms: null });
const TAKEN = ours(200, { outcome: "taken" });

afterEach(async () => {
  vi.unstubAllGlobals();
  await Promise.all(opened.splice(0).map((database) => database.close()));
});

describe("a photo", () => {
  it("is sent once its finding is kept, the oldest first, and once", async () => {
    const database = aDatabase();
    await kept(database, "photo-b", { kept_at: NOW + 1 });
    await kept(database, "photo-a");
    await kept(database, "photo-c", { state: "held" });
    const sent: string[] = [];
    const send = async (path: string) => {
      sent.push(path);
      return TAKEN;
    };
    expect(await photoRound(database, "ines", send)).toEqual({ how: "in_step" });
    await photoRound(database, "ines", send);
    expect(sent).toEqual(["/api/sites/park/photos/photo-a?person=ines", "/api/sites/park/photos/photo-b?person=ines"]);
    await releasePhotos(database, "ines", ["photo-c"]);
    expect(await ids(database)).toEqual(["photo-c"]);
  });

  it.each([
    ["a broken line", SILENCE],
    ["another's answer", { ...TAKEN, ours: false }],
    ["a server that fails", ours(503, {})],
    ["nobody being signed in", ours(401, {})],
  ])("waits after %s, whole", async (_what, reply) => {
    const database = aDatabase();
    await kept(database, "photo-a");
    expect((await photoRound(database, "ines", async () => reply)).how).toBe("silent");
    expect(await ids(database)).toEqual(["photo-a"]);
    expect(new Uint8Array((await photoIn(database, "ines", "photo-a"))?.bytes ?? new ArrayBuffer(0))).toEqual(
      new Uint8Array(bytes("photo-a")),
    );
  });

  it("that the server will not have is set aside with what it said, and delays no other", async () => {
    const database = aDatabase();
    await kept(database, "photo-a");
    await kept(database, "photo-b", { kept_at: NOW + 1 });
    const send = async (path: string) => (path.includes("photo-a") ? ours(422, { detail: "No picture." }) : TAKEN);
    expect(await photoRound(database, "ines", send)).toEqual({ how: "in_step" });
    expect(await ids(database)).toEqual([]);
    expect(await photoIn(database, "ines", "photo-a")).toMatchObject({ state: "refused", fault: "No picture." });
    expect(await photoIn(database, "ines", "photo-b")).toMatchObject({ state: "sent", fault: null });
  });

  it("is sent, seen, released and dropped by its own person alone", async () => {
    const database = aDatabase();
    await kept(database, "photo-a", { state: "held" });
    await releasePhotos(database, "rui", ["photo-a"]);
    await dropPhotos(database, "rui", ["photo-a"]);
    expect(await photoIn(database, "rui", "photo-a")).toBeNull();
    expect(await photoIn(database, "ines", "photo-a")).toMatchObject({ state: "held" });
    await releasePhotos(database, "ines", ["photo-a"]);
    expect([await ids(database, "rui"), await ids(database)]).toEqual([[], ["photo-a"]]);
    await dropPhotos(database, "ines", ["photo-a"]);
    expect(await photoIn(database, "ines", "photo-a")).toBeNull();
  });

  it("leaves the phone when it is long sent, or long forgotten; one that waits never does", async () => {
    const database = aDatabase();
    for (let made = 0; made < 45; made++) await kept(database, `sent-${made}`, { state: "sent", kept_at: NOW + made });
    await kept(database, "waits", { kept_at: NOW - 400 * 86_400 });
    await kept(database, "forgotten", { state: "held", kept_at: NOW - 40 * 86_400 });
    await tidyPhotos(database, NOW);
    const there = await Promise.all(
      ["sent-4", "sent-5", "waits", "forgotten"].map(async (id) => (await photoIn(database, "ines", id)) !== null),
    );
    expect(there).toEqual([false, true, true, false]);
  });
});

describe("the line", () => {
  it("names the SHA-256 of what it sends (“abc” of FIPS 180-4's examples)", async () => {
    const hex = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    const base64 = btoa(String.fromCharCode(...(hex.match(/../g) ?? []).map((two) => Number.parseInt(two, 16))));
    expect(await digestOf(bytes("abc"))).toBe(`sha-256=:${base64}:`);
  });

  it("never raises where it breaks", async () => {
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("no line")));
    const row = { id: "p", person: "ines", site: "park", kind: "image/jpeg", bytes: bytes("x"), kept_at: NOW };
    expect(await photoLine(() => "en")("/x", { ...row, state: "waits", fault: null })).toEqual(SILENCE);
  });
});

it("a picture is fitted within its longest side, in its own proportion, and never made larger", () => {
  expect(fitted(4000, 3000, 1600)).toEqual([1600, 1200]);
  expect(fitted(3000, 4000, 1600)).toEqual([1200, 1600]);
  expect(fitted(800, 600, 1600)).toEqual([800, 600]);
  expect(fitted(10_000, 1, 1600)).toEqual([1600, 1]);
});
