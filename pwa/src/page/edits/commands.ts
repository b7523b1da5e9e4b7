/** What screens do. Each command is durable on this phone before its promise resolves; sending comes later, by itself. */

import { signal } from "@preact/signals";
import { sendJson } from "../line/fetching";
import { StorageFault } from "../store/database";
import { storageFault } from "../store/queries";
import type { Change } from "../store/shapes";
import type { Store } from "../store/store";
import { syncNow } from "../sync/follow";
import { store } from "../sync/phone";
import { language } from "../words/reader";
import { keepIn, takeBackIn } from "./acts";
import { KeepFault } from "./fault";

export { KeepFault } from "./fault";

/** What the tray at the foot of the screen offers to take back, until the next act. */
export interface Kept {
  set: string;
  /** A finished sentence's maker, so that it follows the reader's language: `() => t("Kept {run} for {station}.", …)`. */
  said: () => string;
}

export const tray = signal<Kept | null>(null);

/** Keep changes as one act that stands or falls together (of more than a hundred edits, each hundred by itself).
 * Resolves once they are durable; empty where nothing was changed. Raises `KeepFault`. */
export async function keep(changes: Change[], said: () => string): Promise<string> {
  const set = await durably((opened) => keepIn(opened, changes));
  if (set) tray.value = { set, said };
  return set;
}

/** Take an act back: thrown away where it was never sent, else changed back by a new one. Raises `KeepFault`, and
 * `LineFault` where what waits on the server can only be taken back there. */
export async function takeBack(set: string): Promise<void> {
  const taken = await durably((opened) => takeBackIn(opened, set));
  if (tray.peek()?.set === set) tray.value = null;
  for (const { edit, decision } of taken.decide) await decide(edit, decision);
}

/** Decide about an edit that waits on the server, and with it about its set. Raises `LineFault`. */
export async function decide(edit: string, decision: "accept" | "decline" | "discard"): Promise<void> {
  const site = store.peek()?.site;
  if (!site) throw new KeepFault("no_site");
  const path = `/api/sync/sites/${encodeURIComponent(site)}/waiting/${encodeURIComponent(edit)}`;
  await sendJson("POST", path, { decision }, language.peek());
  syncNow();
}

async function durably<Result>(work: (opened: Store) => Promise<Result>): Promise<Result> {
  const opened = store.peek();
  if (!opened) throw new KeepFault(storageFault.peek() ? "storage" : "no_site");
  try {
    const result = await work(opened);
    syncNow();
    return result;
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    throw new KeepFault("storage");
  }
}
