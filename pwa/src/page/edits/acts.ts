/** What a person does to a site, written into the outbox of a store: keeping changes, and taking them back. */

import type { AnsweredRow } from "../store/database";
import { newId as makeId } from "../store/ids";
import type { Kept, OutboxEdit } from "../store/kept";
import { byPlace, laidOver, ownAt } from "../store/laying";
import {
  type Act,
  bytesOf,
  type Draft,
  draftsOf,
  FULL_BYTES,
  FULL_EDITS,
  type Grounds,
  givesWay,
  inPlaceOf,
  inverseOf,
  without,
} from "../store/outbox";
import type { Change } from "../store/shapes";
import type { OwnEdits, Store } from "../store/store";
import { KeepFault } from "./fault";

/** The phone's clock and its source of ids, which tests hold in their hands. */
export interface Means {
  now: () => number;
  newId: () => string;
}

const REAL: Means = { now: () => Date.now(), newId: makeId };

/** Keep changes of the open site as one act. Its id; empty where nothing was changed. Raises `KeepFault`. */
export async function keepIn(store: Store, changes: readonly Change[], means: Means = REAL): Promise<string> {
  const { kept } = store;
  if (!kept.head) throw new KeepFault("no_site");
  if (!kept.head.role || !kept.owner) throw new KeepFault("not_yours");
  if (!store.database) throw new KeepFault("storage");
  return await store.changeOwn((own) => keepAmong(own, kept, changes, means));
}

async function keepAmong(own: OwnEdits, kept: Kept, changes: readonly Change[], means: Means): Promise<string> {
  const made = draftsOf(changes, await groundsOf(own, kept), actOf(kept, means));
  checkRoom(own.outbox, made);
  const [first] = made;
  if (!first) return "";
  const earlier = givesWay(own.outbox, made);
  if (earlier) await own.drop([earlier], "folded");
  await own.add(earlier ? [inPlaceOf(earlier, first)] : made);
  return first.together;
}

function actOf({ site, owner, head }: Kept, { now, newId }: Means): Act {
  const at = now();
  return {
    site,
    person: owner,
    cursor: head?.cursor ?? null,
    phone_time: new Date(at).toISOString(),
    kept_at: Math.floor(at / 1000),
    newId,
  };
}

function checkRoom(outbox: readonly OutboxEdit[], made: readonly Draft[]): void {
  const bytes = [...outbox, ...made].reduce((sum, edit) => sum + bytesOf(edit), 0);
  if (outbox.length + made.length > FULL_EDITS || bytes > FULL_BYTES) throw new KeepFault("outbox_full");
}

/** What the person saw, and their own edits on the way: those of this tab's memory and those of the database. */
async function groundsOf(own: OwnEdits, kept: Kept): Promise<Grounds> {
  const stored = ownAt({ site: kept.site, outbox: own.outbox, overlaid: own.overlaid });
  const ids = new Set(stored.map((edit) => edit.id));
  const remembered: OutboxEdit[] = [];
  for (const edit of ownAt(kept)) {
    if (!ids.has(edit.id) && (await own.fateOf(edit.id))?.how !== "discarded") remembered.push(edit);
  }
  const edits = [...remembered, ...stored].sort(byPlace);
  return {
    shown: laidOver(kept.records, kept.removed, edits),
    records: kept.records,
    removed: kept.removed,
    own: edits,
  };
}

/** What has to be asked of the server as well: sets that wait there, by one edit of each. */
export interface Taken {
  /** The act that sets back what was in force or on its way; empty where there was nothing of that. */
  act: string;
  decide: { edit: string; decision: "discard" | "decline" }[];
}

/** Take an act back: thrown away where it was never sent, set back by a new act where it was. Raises `KeepFault`. */
export async function takeBackIn(store: Store, act: string, means: Means = REAL): Promise<Taken> {
  const { kept } = store;
  if (!store.database) throw new KeepFault("storage");
  const found = await store.changeOwn(async (own) => {
    const waiting = own.outbox.filter((edit) => edit.together === act);
    const answered = (await own.answeredOf(act)).filter((row) => row.how === "answered");
    if (!answered.length && waiting.length && (await throwAway(own, waiting))) return null;
    return { waiting, answered };
  });
  if (!found) return { act: "", decide: [] };
  const standing = [...found.waiting, ...found.answered.filter(isInForce).map((row) => row.edit)].sort(byPlace);
  if (standing.some((edit) => edit.site !== kept.site)) throw new KeepFault("no_site");
  const decide = found.answered.filter((row) => !isInForce(row)).map((row) => decisionOn(row, kept.head?.role));
  return { act: standing.length ? await keepIn(store, inverseOf(standing), means) : "", decide: onePerSet(decide) };
}

/** Edits that were never sent, and took no other's place, leave without a trace on the server. */
async function throwAway(own: OwnEdits, edits: readonly OutboxEdit[]): Promise<boolean> {
  const fresh = edits.every((edit) => !edit.sent && JSON.stringify(edit.before) === JSON.stringify(edit.was));
  const left = fresh ? without(own.outbox, edits) : null;
  if (!left) return false;
  await own.drop(edits, "discarded");
  await own.put(left.filter((edit) => !own.outbox.includes(edit)));
  return true;
}

function isInForce(row: AnsweredRow): boolean {
  return row.answer?.outcome === "taken" || row.answer?.outcome === "agreed";
}

type Decision = Taken["decide"][number] & { set: string };

function decisionOn(row: AnsweredRow, role: string | null | undefined): Decision {
  const held = row.answer?.outcome === "held";
  if (held && role !== "manager") throw new KeepFault("not_yours");
  return { edit: row.id, set: row.edit.set, decision: held ? "decline" : "discard" };
}

function onePerSet(decisions: readonly Decision[]): Taken["decide"] {
  return [...new Map(decisions.map((one) => [one.set, one])).values()].map(({ edit, decision }) => ({
    edit,
    decision,
  }));
}
