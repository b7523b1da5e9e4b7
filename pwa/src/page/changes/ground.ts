/** What the room Changes stands on: the site's records, what waits, and what is in force where something is disputed. */

import { computed } from "@preact/signals";
import { Records } from "../records/records";
import { REMOVED, valueIn } from "../store/groups";
import { copy, mayEdit, waiting } from "../store/queries";
import type { Waiting } from "../store/shapes";
import { store } from "../sync/phone";
import { isMe } from "./people";
import { type WaitingSet, waitingSets } from "./sets";

export const records = computed(() => new Records(copy.value?.records ?? []));

/** The same with records that are no longer there, as far as this phone remembers them: to be named, never changed. */
export const names = computed(() => {
  const here = records.value;
  const gone = [...(store.value?.kept.removed.values() ?? [])].flatMap(({ last }) => (last ? [last] : []));
  return new Records([...gone.filter((one) => !here.get(one.table, one.id)), ...here.all]);
});

export const sets = computed(() => waitingSets(waiting.value));

export function setWith(id: string): WaitingSet | undefined {
  return sets.value.find((set) => set.items.some((one) => one.edit.id === id));
}

/** The field that an edit is about: whether a record is there at all is one of them. */
export function fieldOf(edit: Waiting["edit"]): string {
  return edit.kind === "remove" || edit.kind === "restore" ? REMOVED : (edit.field ?? REMOVED);
}

/** What the proposer wants. */
export function proposed({ edit }: Waiting): unknown {
  if (edit.kind === "remove") return true;
  return edit.kind === "restore" ? false : edit.now;
}

/** What holds at present, in the server's copy with one's own unsent edits over it. */
export function inForce({ edit }: Waiting): unknown {
  const record = records.value.get(edit.table, edit.record);
  const field = fieldOf(edit);
  return field === REMOVED ? record === undefined : valueIn(edit.table, field, record);
}

export function isRemoved(table: string, record: string): boolean {
  return records.value.get(table, record) === undefined;
}

/** Whoever may edit may settle; what is held only managers decide. */
export function maySettle(set: WaitingSet): boolean {
  return set.tray === "held" ? copy.value?.role === "manager" : mayEdit.value;
}

/** One's own proposals may always be let go of. */
export function mayLetGo(set: WaitingSet): boolean {
  return set.tray !== "held" && (mayEdit.value || set.items.every((one) => isMe(one.edit.person)));
}
