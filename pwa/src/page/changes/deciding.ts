/** What a decision means in edits: each way of settling what waits, as changes to be kept like any others. */

import type { Change, Waiting } from "../store/shapes";

/** Whether a whole set can be settled by edits alone: a record it would add has nothing in force to be settled. */
export function settles(items: readonly Waiting[]): boolean {
  return items.every((one) => one.edit.kind !== "add");
}

/** The proposer's values come into force; where the record was removed, it is brought back first. */
export function takeProposed(items: readonly Waiting[], removed: (table: string, record: string) => boolean): Change[] {
  const back = new Map<string, Change>();
  for (const { edit } of items)
    if (removed(edit.table, edit.record) && edit.kind !== "restore")
      back.set(`${edit.table}/${edit.record}`, { kind: "restore", table: edit.table, record: edit.record });
  return [...back.values(), ...items.map((one) => settled(one, proposedOf(one)))];
}

/** What is in force stays. */
export function keepTheirs(items: readonly Waiting[], inForce: (one: Waiting) => unknown): Change[] {
  return items.map((one) => settled(one, inForce(one)));
}

/** Another value for the one edit; the others of its set follow the proposer. */
export function settleWith(items: readonly Waiting[], one: Waiting, now: unknown): Change[] {
  return items.map((item) => settled(item, item === one ? now : proposedOf(item)));
}

function settled({ edit }: Waiting, now: unknown): Change {
  return { kind: "settle", table: edit.table, record: edit.record, field: fieldOf(edit), now, settles: edit.id };
}

function fieldOf(edit: Waiting["edit"]): string {
  return edit.kind === "remove" || edit.kind === "restore" ? "removed" : (edit.field ?? "removed");
}

function proposedOf({ edit }: Waiting): unknown {
  if (edit.kind === "remove") return true;
  return edit.kind === "restore" ? false : edit.now;
}

/** The same as changes of nothing but values, to be weighed before they are kept. */
export function weighed(changes: readonly Change[]): Change[] {
  return changes.flatMap((change): Change[] => {
    const { table, record } = change;
    if (change.kind !== "settle") return [change];
    if (change.field === "removed") return [{ kind: change.now === true ? "remove" : "restore", table, record }];
    return [{ kind: "set", table, record, field: change.field, now: change.now }];
  });
}
