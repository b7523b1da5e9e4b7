/** Edits gathered into the acts they were made in: what a person did at once is told and taken back at once. */

import type { Waiting } from "../store/shapes";

/** A set that was too large for one call is several; `together` names the act they all belong to. */
export function actOf(edit: { set: string; together?: unknown }): string {
  return typeof edit.together === "string" ? edit.together : edit.set;
}

export interface Act<Item> {
  id: string;
  items: Item[];
}

/** In the order of their first edits. */
export function acts<Item extends { set: string }>(edits: readonly Item[]): Act<Item>[] {
  const found = new Map<string, Item[]>();
  for (const edit of edits) {
    const id = actOf(edit);
    const items = found.get(id);
    if (items) items.push(edit);
    else found.set(id, [edit]);
  }
  return [...found].map(([id, items]) => ({ id, items }));
}

export type Tray = Waiting["tray"];

/** What waits, gathered: edits of one set that wait in one tray are decided together. */
export interface WaitingSet {
  id: string;
  tray: Tray;
  items: Waiting[];
  /** Those that brought the set down; the others only stand or fall with them. */
  atFault: Waiting[];
}

/** What has to be decided first stands first. */
const ORDER: readonly Tray[] = ["disputed", "removed", "refused", "held", "parked"];

export function waitingSets(waiting: readonly Waiting[]): WaitingSet[] {
  const found = new Map<string, Waiting[]>();
  for (const one of waiting) {
    if (!one.open) continue;
    const key = `${one.tray} ${one.edit.set}`;
    const items = found.get(key);
    if (items) items.push(one);
    else found.set(key, [one]);
  }
  const sets = [...found.values()].map((items) => setOf(items));
  return sets.sort((a, b) => ORDER.indexOf(a.tray) - ORDER.indexOf(b.tray));
}

function setOf(items: Waiting[]): WaitingSet {
  const atFault = items.filter((one) => !one.answer.with?.length);
  const [first] = atFault.length > 0 ? atFault : items;
  return {
    id: first?.edit.id ?? "",
    tray: first?.tray ?? "disputed",
    items,
    atFault: atFault.length > 0 ? atFault : items,
  };
}
