/** What screens do. Each command is durable on this phone before its promise resolves; sending comes later, by itself. */

import { signal } from "@preact/signals";
import type { Change } from "../store/shapes";

/** What the tray at the foot of the screen offers to take back, until the next act. */
export interface Kept {
  set: string;
  /** A finished sentence's maker, so that it follows the reader's language: `() => t("Kept {run} for {station}.", …)`. */
  said: () => string;
}

export const tray = signal<Kept | null>(null);

/** Why a change could not be kept: nothing was lost, and the person is told what to do. */
export class KeepFault extends Error {
  constructor(readonly why: "storage" | "outbox_full" | "not_yours" | "no_site") {
    super(why);
  }
}

/** Keep changes as one set that stands or falls together. Resolves once they are durable. Raises `KeepFault`. */
export async function keep(changes: Change[], said: () => string): Promise<string> {
  void changes;
  void said;
  throw new KeepFault("no_site");
}

/** Take a set back: thrown away where it was never sent, else changed back by a new set. */
export async function takeBack(set: string): Promise<void> {
  void set;
  throw new KeepFault("no_site");
}
