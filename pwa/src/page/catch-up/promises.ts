/** When interruptions are expected to be over, as people said it here or accepted it elsewhere. */

import { signal } from "@preact/signals";
import { getJson, LineFault } from "../line/fetching";
import { StorageFault } from "../store/database";
import { storageFault } from "../store/queries";
import type { Store } from "../store/store";
import { store } from "../sync/phone";
import { language } from "../words/reader";
import { endingOf, type Interruption, keyOfEnding, type Promised } from "./interruptions";

/** By the key of the interruption. */
export const promised = signal<ReadonlyMap<string, Promised>>(new Map());

/** It is expected to be over at an instant; the phone remembers that. */
export async function expect(one: Interruption, at: number): Promise<void> {
  await add([{ ...endingOf(one), at }]);
}

/** What this phone remembers, and what others accepted, where there is a line. */
export async function recallPromises(opened: Store): Promise<void> {
  await guarded(async () => {
    const kept = await opened.database?.read(["about"], (tx) => tx.objectStore("about").get(keyOf(opened)));
    if (kept) take(kept as Promised[]);
  });
  try {
    const path = `/api/sites/${encodeURIComponent(opened.site)}/nights/tonight/catch-up?offers=false`;
    const { accepted } = await getJson<{ accepted: { promised: Promised[] }[] }>(path, language.peek());
    take(accepted.flatMap((one) => one.promised));
  } catch (fault) {
    // Without a line, what is remembered here holds.
    if (!(fault instanceof LineFault)) throw fault;
  }
}

async function add(more: readonly Promised[]): Promise<void> {
  take(more);
  const opened = store.peek();
  await guarded(async () => {
    await opened?.database?.write(["about"], false, async (tx) => {
      await tx.objectStore("about").put([...promised.peek().values()], keyOf(opened));
    });
  });
}

function take(more: readonly Promised[]): void {
  const fresh = more.filter((one) => promised.peek().get(keyOfEnding(one))?.at !== one.at);
  if (!fresh.length) return;
  promised.value = new Map([...promised.peek(), ...fresh.map((one) => [keyOfEnding(one), one] as const)]);
}

function keyOf({ owner, site }: Pick<Store, "owner" | "site">): string {
  return `promised:${owner}:${site}`;
}

async function guarded(work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
  }
}
