/** The file of what is unsent holds all of it: edits, entries, accepted rests, and photos to the byte. */

import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { keepAccepted } from "../catch-up/kept";
import { keepTold } from "../journal/kept";
import { aNight, NOON } from "../night/builders";
import { Database, StorageFault } from "../store/database";
import { person, storageFault, unsent } from "../store/queries";
import type { Edit } from "../store/shapes";
import { Store } from "../store/store";
import { store } from "../sync/phone";
import { keepPhoto, type PhotoState } from "../wet-check/photos/kept";
import { unsentFile } from "./file";

let number = 0;
let database: Database;
const EDIT = { id: "e1", person: "ines", site: "park" } as Edit;

beforeEach(() => {
  database = new Database(`unsent file ${number++}`);
  store.value = new Store(database, "ines", "park");
  person.value = { id: "ines", name: "Inês", device: "phone", sites: [] };
  unsent.value = [EDIT];
});
afterEach(async () => {
  await database.close();
  [store.value, person.value, unsent.value, storageFault.value] = [null, null, [], null];
});

async function tell(id: string, owner: string, taken = false): Promise<void> {
  const entry = { id, kind: "note" as const, text: "Wet by the gate", at: NOON };
  await keepTold(database, [{ id, person: owner, site: "zoo", entry, kept_at: NOON, taken, faults: null }]);
}

async function photograph(id: string, state: PhotoState, bytes: Uint8Array, owner = "ines"): Promise<void> {
  const row = { id, person: owner, site: "park", kind: "image/jpeg", kept_at: NOON, state, fault: null };
  await keepPhoto(database, { ...row, bytes: bytes.slice().buffer });
}

async function accept(id: string, site: string, fault: string | null = null, owner = "ines"): Promise<void> {
  const about = { night: "2026-10-24", at: NOON, way: "keep" as const, effort: 8, promised: [] };
  const row = { given: { id, person: owner, ...about }, before: aNight([]), fault };
  await keepAccepted(database, { owner, site }, row);
}

function decoded(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}

it("holds what is unsent at every site, and what the server would not have, and nothing of anybody else", async () => {
  await Promise.all([tell("n1", "ines"), tell("n2", "ines", true), tell("n3", "rui")]);
  await accept("r1", "park");
  await accept("r2", "zoo", "That night is over.");
  await accept("r3", "park", null, "rui");
  for (const state of ["waits", "refused", "held", "sent"] as const) await photograph(state, state, new Uint8Array(3));
  await photograph("other", "waits", new Uint8Array(3), "rui");
  const file = await unsentFile();
  expect(file).toMatchObject({ version: 1, person: "ines", whole: true, edits: [EDIT] });
  expect(file.entries).toEqual([{ site: "zoo", id: "n1", kind: "note", text: "Wet by the gate", at: NOON }]);
  expect(file.rests.map(({ id, site, night, way }) => [id, site, night, way])).toEqual([
    ["r1", "park", "2026-10-24", "keep"],
    ["r2", "zoo", "2026-10-24", "keep"],
  ]);
  expect(file.photos.map(({ id }) => id).sort()).toEqual(["held", "refused", "waits"]);
  expect(JSON.parse(JSON.stringify(file))).toEqual(file);
});

it.each([0, 1, 2, 3, 12_287, 12_288, 12_289, 100_000])("a photo of %i bytes is in it to the byte", async (length) => {
  const bytes = Uint8Array.from({ length }, (_, place) => (place * 31 + (place >> 8)) % 256);
  await photograph("p", "waits", bytes);
  const [photo] = (await unsentFile()).photos;
  expect(photo).toMatchObject({ id: "p", site: "park", kept_at: NOON, type: "image/jpeg" });
  expect(decoded(photo?.base64 ?? "?")).toEqual(bytes);
});

it("edits are in it where the phone can read nothing else, and it says that it is not whole", async () => {
  await tell("n1", "ines");
  vi.spyOn(database, "read").mockRejectedValue(new StorageFault("late"));
  expect(await unsentFile()).toMatchObject({ whole: false, edits: [EDIT], entries: [], rests: [], photos: [] });
  expect(storageFault.value).toBe("late");
});

it("a phone that keeps nothing has its edits in it", async () => {
  store.value = new Store(null, "ines", "park");
  expect(await unsentFile()).toMatchObject({ whole: true, edits: [EDIT], photos: [] });
});
