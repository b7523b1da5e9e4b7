/** This phone: who uses it, which site is open on it, and the store of both. */

import { signal } from "@preact/signals";
import { type KnownTime, knownTime, now, recallTime } from "../night/now";
import { Database, StorageFault } from "../store/database";
import { publish } from "../store/publish";
import { besidesEdits, line, othersUnsent, person, storageFault } from "../store/queries";
import type { Person } from "../store/shapes";
import { Store } from "../store/store";
import { countsOf, othersOf, UNSENT, waitsIn } from "../store/unsent";
import type { SignedIn } from "./round";

/** The store of the open site; null until a site is known. */
export const store = signal<Store | null>(null);

const database = new Database();
let keeps = true;
let stop: (() => void) | null = null;

/** At the start: what the phone holds, without waiting for any line. Never raises: without storage nothing is held. */
export async function openPhone(wished: string | null): Promise<void> {
  try {
    await database.open();
    person.value = await about<Person>("person");
    recallTime(await about<KnownTime>("time"));
    line.value = { ...line.peek(), spoke: await about<number>("spoke") };
    const site = wished ?? (await about<string>(siteKey()));
    if (site) await openSite(site);
    await countUnsent();
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    keeps = false;
    storageFault.value = fault.why;
    if (wished) await openSite(wished);
  }
}

/** Open a site for whoever is signed in. Raises `StorageFault`. */
export async function openSite(site: string): Promise<void> {
  const opened = new Store(keeps ? database : null, person.peek()?.id ?? "", site);
  await opened.load(yesterday(), 3);
  stop?.();
  stop = publish(opened);
  store.value = opened;
  await note(siteKey(), site);
}

/** Only the nights about now are read before the first screen; then the others. */
export async function readTheRest(): Promise<void> {
  await store.peek()?.loadNights();
}

/** Somebody is signed in, or nobody any more. What others have unsent on this phone stays, and waits for them. */
export async function becomes(signedIn: SignedIn | null): Promise<void> {
  const before = store.peek();
  const next = signedIn && personOf(signedIn);
  if (JSON.stringify(next) === JSON.stringify(person.peek()) && (before?.owner ?? "") === (next?.id ?? "")) return;
  person.value = next;
  await note("person", person.peek());
  if (signedIn) await note(`name:${signedIn.person}`, signedIn.profile.name);
  if (before && before.owner !== (signedIn?.person ?? "")) {
    const sites = signedIn?.sites.map((one) => one.site) ?? [before.site];
    await before.forgetSite();
    await openSite(sites.includes(before.site) ? before.site : (sites[0] ?? before.site));
  }
  await countUnsent();
}

export function personOf({ person, device, profile, sites }: SignedIn): Person {
  return { id: person, name: profile.name, device, sites: sites.map(({ site, role }) => ({ site, role })) };
}

/** The server has answered: when, and what time it has. */
export async function noteSpoken(at: number): Promise<void> {
  await note("spoke", at);
  await note("time", knownTime());
}

/** What waits on this phone for the server, of its person and of others. Raises `StorageFault`. */
export async function countUnsent(): Promise<void> {
  if (!keeps) return;
  const own = person.peek()?.id ?? "";
  const { waits, names } = await database.read([...UNSENT], async (tx) => {
    const waits = await waitsIn(tx);
    const people = [...new Set(waits.map((one) => one.person))];
    const found = await Promise.all(people.map((id) => tx.objectStore("about").get(`name:${id}`)));
    const names = people.map((id, place) => [id, found[place]] as const);
    return { waits, names: new Map(names.filter((one): one is [string, string] => typeof one[1] === "string")) };
  });
  besidesEdits.value = countsOf(waits, own);
  othersUnsent.value = othersOf(waits, own, names);
}

async function about<Value>(key: string): Promise<Value | null> {
  return await database.read(
    ["about"],
    async (tx) => ((await tx.objectStore("about").get(key)) ?? null) as Value | null,
  );
}

async function note(key: string, value: unknown): Promise<void> {
  if (!keeps) return;
  await database.write(["about"], false, async (tx) => {
    await tx.objectStore("about").put(value, key);
  });
}

function siteKey(): string {
  return `site:${person.peek()?.id ?? ""}`;
}

/** A date before any night that may be tonight, in whatever zone the site lies. */
function yesterday(): string {
  const instant = now.peek() || Math.floor(Date.now() / 1000);
  return new Date((instant - 48 * 3600) * 1000).toISOString().slice(0, 10);
}
