/** Up to where the reader has seen what others changed: the mark moves once the room was read. */

import { computed, signal } from "@preact/signals";
import { copy, person } from "../store/queries";
import { newest, type PastEdit } from "./book";
import { keepPage, keptPage } from "./kept-page";
import { isMe } from "./people";

/** A place in the history: revisions order it, and no clock does. `at` is for people to read. */
export interface Mark {
  revision: number;
  at: number;
}

/** Null: this phone has never looked, so that nothing is news yet. It stands still while the room is open. */
export const mark = signal<Mark | null>(null);

const whose = (): string => `${person.peek()?.id ?? ""}.${copy.peek()?.site ?? ""}`;

/** The room is entered: from where on is it new? */
export function enter(): void {
  mark.value = keptPage<Mark>("seen", whose());
}

/** The room was read: whatever was shown is seen. */
export function leave(): void {
  const latest = latestOf(newest.peek().edits);
  if (latest) keepPage("seen", whose(), latest);
}

export function latestOf(edits: readonly PastEdit[]): Mark | null {
  const [first] = [...edits].sort((a, b) => b.revision - a.revision);
  return first ? { revision: first.revision, at: first.at } : null;
}

/** What others changed since, the newest first; on a first look, nothing. */
export const unseen = computed<PastEdit[]>(() => {
  const since = mark.value;
  return since === null ? [] : newsAfter(newest.value.edits, since.revision);
});

export function newsAfter(edits: readonly PastEdit[], revision: number): PastEdit[] {
  return edits.filter((edit) => edit.revision > revision && edit.outcome === "taken" && !isMe(edit.person));
}
