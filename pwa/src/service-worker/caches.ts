/** Names of the caches, and which versions are kept: the one in use, and the one before it for pages that are open. */

import type { KeptKind } from "../wire/shell";

const OURS = "pengan-";
const LEDGER = `${OURS}ledger`;
const PAGE_OF_LEDGER = "/ledger";

/** What the worker remembers between two starts. */
export interface Ledger {
  /** Versions by kind, the one in use first. */
  versions: Record<KeptKind, string[]>;
  /** What the page was last read in. */
  language: string;
}

export function cacheName(kind: KeptKind, version: string): string {
  return `${OURS}${kind}-${version}`;
}

export async function readLedger(): Promise<Ledger> {
  const empty: Ledger = { versions: { shell: [], languages: [], planner: [] }, language: "" };
  const kept = await (await caches.open(LEDGER)).match(PAGE_OF_LEDGER);
  return kept ? ((await kept.json()) as Ledger) : empty;
}

/** Several workers of this app may run at once: one after the other writes. */
export async function changeLedger(change: (ledger: Ledger) => void): Promise<Ledger> {
  return navigator.locks.request(LEDGER, async () => {
    const ledger = await readLedger();
    change(ledger);
    await (await caches.open(LEDGER)).put(PAGE_OF_LEDGER, Response.json(ledger));
    return ledger;
  });
}

/** A version is in use from now on. So many before it are kept, for pages that are still open; older ones go. */
export async function useVersion(kind: KeptKind, version: string, before: number): Promise<void> {
  const ledger = await changeLedger(({ versions }) => {
    versions[kind] = [version, ...versions[kind].filter((other) => other !== version)].slice(0, 1 + before);
  });
  await forgetOlder(kind, version, ledger.versions[kind]);
}

/** A version that is newer still, and on its way, is left alone: names come in the order in which caches were made. */
async function forgetOlder(kind: KeptKind, version: string, wanted: string[]): Promise<void> {
  const names = await caches.keys();
  const older = names.slice(0, names.indexOf(cacheName(kind, version)));
  const keep = new Set(wanted.map((one) => cacheName(kind, one)));
  const old = older.filter((name) => name.startsWith(`${OURS}${kind}-`) && !keep.has(name));
  await Promise.all(old.map((name) => caches.delete(name)));
}

export async function forgetAll(): Promise<void> {
  const ours = (await caches.keys()).filter((name) => name.startsWith(OURS));
  await Promise.all(ours.map((name) => caches.delete(name)));
}

/** A file whose name changes with its content, from whichever version holds it. */
export async function findKept(url: string): Promise<Response | undefined> {
  return caches.match(url, { ignoreVary: true });
}
