/** Up to where the reader has seen what others changed: the mark moves once the room was read. */

import { computed, signal } from "@preact/signals";
import { copy, person } from "../store/queries";
import { newest, type PastEdit } from "./book";
import { keepPage, keptPage } from "./kept-page";
import { isMe } from "./people";

/** An instant of the server's; null until the mark was read. It stands still while the room is open. */
export const mark = signal<number | null>(null);

const whose = (): string => `${person.peek()?.id ?? ""}.${copy.peek()?.site ?? ""}`;

/** The room is entered: from where on is it new? On a phone that has never looked, nothing older than this is news. */
export function enter(): void {
  mark.value = keptPage<number>("seen", whose());
}

/** The room was read: whatever was shown is seen. */
export function leave(): void {
  const latest = latestOf(newest.peek().edits);
  if (latest !== null) keepPage("seen", whose(), latest);
}

function latestOf(edits: readonly PastEdit[]): number | null {
  return edits.length === 0 ? null : Math.max(...edits.map((edit) => edit.at));
}

/** What others changed since, the newest first; on a first look, nothing. */
export const unseen = computed<PastEdit[]>(() => {
  const since = mark.value;
  return since === null ? [] : newsAfter(newest.value.edits, since);
});

export function newsAfter(edits: readonly PastEdit[], since: number): PastEdit[] {
  return edits.filter((edit) => edit.at > since && edit.outcome === "taken" && !isMe(edit.person));
}
