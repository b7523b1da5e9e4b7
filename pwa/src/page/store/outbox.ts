/** The outbox: edits made here that the server has not answered, in the order in which they were made. */

import type { SiteRecord } from "../site/document";
import { FORMAT, REMOVED, sameValue, valueIn, whole } from "./groups";
import { keyOf, type OutboxEdit, type PulledRecord, type Removed } from "./kept";
import { byPlace } from "./laying";
import type { Change, Edit } from "./shapes";

/** What the server takes at once. Ours stays below its 64 KB: the rest of the call has to fit in as well. */
export const MOST_EDITS = 100;
export const MOST_BYTES = 60 * 1024;
export const WARN_EDITS = 200;
export const WARN_AFTER_S = 3 * 24 * 3600;
export const FULL_EDITS = 5000;
export const FULL_BYTES = 2 * 1024 * 1024;

export type Draft = Omit<OutboxEdit, "place">;

/** What an edit is made on: the copy as its person saw it, and their own edits on the way, oldest first. */
export interface Grounds {
  shown: ReadonlyMap<string, SiteRecord>;
  records: ReadonlyMap<string, Pick<PulledRecord, "versions">>;
  removed: ReadonlyMap<string, Pick<Removed, "version" | "versions">>;
  own: readonly Pick<OutboxEdit, "id" | "kind" | "table" | "record" | "field">[];
}

/** What all edits of one act share. */
export interface Act {
  site: string;
  person: string;
  cursor: number | null;
  phone_time: string;
  kept_at: number;
  newId: () => string;
}

type Own = Grounds["own"][number];

/** The edits of an act, split into sets that the server takes whole. What changes nothing is left out. */
export function draftsOf(changes: readonly Change[], grounds: Grounds, act: Act): Draft[] {
  const together = act.newId();
  const made: Draft[] = [];
  let set = together;
  let size = { edits: 0, bytes: 0 };
  for (const change of changes) {
    const edit = complete(change, grounds, made, act, { set, together });
    if (changesNothing(edit)) continue;
    const bytes = bytesOf(edit);
    if (size.edits === MOST_EDITS || (size.edits && size.bytes + bytes > MOST_BYTES)) {
      set = act.newId();
      size = { edits: 0, bytes: 0 };
    }
    size = { edits: size.edits + 1, bytes: size.bytes + bytes };
    made.push({ ...edit, set });
  }
  return made;
}

function changesNothing(edit: Draft): boolean {
  return edit.kind === "set" && sameValue(edit.table, edit.field ?? "", edit.was, edit.now);
}

function complete(
  change: Change,
  grounds: Grounds,
  made: readonly Draft[],
  act: Act,
  of: { set: string; together: string },
): Draft {
  const field = "field" in change ? change.field : null;
  const was = wasOf(change, field, grounds, made);
  return {
    id: act.newId(),
    ...of,
    site: act.site,
    person: act.person,
    kind: change.kind,
    table: change.table,
    record: change.record,
    field,
    seen: seenBy(change, grounds, made),
    was,
    before: was,
    now: nowOf(change, field),
    format: FORMAT,
    phone_time: act.phone_time,
    settles: change.kind === "settle" ? change.settles : null,
    sent: false,
    cursor: act.cursor,
    kept_at: act.kept_at,
  };
}

function nowOf(change: Change, field: string | null): unknown {
  if (change.kind === "add") return change.now;
  if (change.kind === "set" || change.kind === "settle") return whole(change.table, field ?? "", change.now);
  return null;
}

/** What the field showed: the act's own earlier edits of it count. */
function wasOf(change: Change, field: string | null, grounds: Grounds, made: readonly Draft[]): unknown {
  if (field === null) return null;
  const key = keyOf(change.table, change.record);
  if (field === REMOVED) return !grounds.shown.has(key);
  const earlier = made.findLast((edit) => keyOf(edit.table, edit.record) === key && edit.field === field);
  return earlier ? earlier.now : valueIn(change.table, field, grounds.shown.get(key));
}

/** One's own earlier edit of the field where the copy has not got it yet, else the copy's version of it. */
function seenBy(change: Change, grounds: Grounds, made: readonly Draft[]): unknown {
  if (change.kind === "add") return null;
  const own = [...grounds.own, ...made];
  if (change.kind === "remove") return seenByField(change, grounds, own);
  const field = "field" in change ? change.field : REMOVED;
  const earlier = own.findLast((edit) => isOf(edit, change) && versionedField(edit) === field);
  return earlier ? earlier.id : versionOf(change, field, grounds);
}

/** What a removal saw: every field that is not at version 1, or has an edit of one's own on its way. */
function seenByField(change: Change, grounds: Grounds, own: readonly Own[]): Record<string, unknown> {
  const seen: Record<string, unknown> = { ...versionsOf(change, grounds) };
  for (const edit of own) {
    const field = versionedField(edit);
    if (isOf(edit, change) && field !== null) seen[field] = edit.id;
  }
  return seen;
}

function versionOf(change: Change, field: string, grounds: Grounds): number {
  const removed = grounds.removed.get(keyOf(change.table, change.record));
  if (field === REMOVED && removed) return removed.version;
  return versionsOf(change, grounds)?.[field] ?? 1;
}

/** The versions the copy knows of a record, be it there or removed. */
function versionsOf(change: Change, grounds: Grounds): Readonly<Record<string, number>> | undefined {
  const key = keyOf(change.table, change.record);
  return grounds.records.get(key)?.versions ?? grounds.removed.get(key)?.versions;
}

function isOf(edit: Own, change: Change): boolean {
  return edit.table === change.table && edit.record === change.record;
}

/** The versioned field that an edit writes. Removing and bringing back write the field `removed`. */
export function versionedField(edit: Pick<Edit, "kind" | "field">): string | null {
  return edit.kind === "remove" || edit.kind === "restore" ? REMOVED : edit.field;
}

/** The unsent edit of the same field that gives way to a new one, which takes over what it had seen. Else null.
 *
 * Whatever was sent stays: its answer may be on its way. So does an edit that stands or falls with others. */
export function givesWay(outbox: readonly OutboxEdit[], made: readonly Draft[]): OutboxEdit | null {
  const [edit] = made;
  if (!edit || made.length !== 1 || edit.kind !== "set") return null;
  const earlier = outbox.find((item) => item.id === edit.seen);
  if (!earlier || earlier.sent || earlier.kind !== "set") return null;
  return outbox.filter((item) => item.set === earlier.set).length === 1 ? earlier : null;
}

/** The new edit, after the earlier one gave way. */
export function inPlaceOf(earlier: OutboxEdit, edit: Draft): Draft {
  return { ...edit, was: earlier.was, seen: earlier.seen };
}

/** The outbox without some edits that were never sent; later edits that named them name what those had seen.
 * Null where a later edit cannot do without them. */
export function without(outbox: readonly OutboxEdit[], gone: readonly OutboxEdit[]): OutboxEdit[] | null {
  const goneBy = new Map(gone.map((edit) => [edit.id, edit]));
  const left = outbox.filter((edit) => !goneBy.has(edit.id));
  const needed = gone.some((edit) => edit.kind !== "set" && left.some((later) => needs(later, edit)));
  return needed ? null : left.map((edit) => renamed(edit, goneBy));
}

function needs(later: OutboxEdit, gone: OutboxEdit): boolean {
  return later.place > gone.place && keyOf(later.table, later.record) === keyOf(gone.table, gone.record);
}

function renamed(edit: OutboxEdit, gone: ReadonlyMap<string, OutboxEdit>): OutboxEdit {
  const named = typeof edit.seen === "string" ? gone.get(edit.seen) : undefined;
  if (named) return renamed({ ...edit, seen: named.seen, was: named.was }, gone);
  if (edit.kind !== "remove") return edit;
  const seen = Object.entries(edit.seen as Record<string, unknown>).map(([field, by]) => [field, backTo(by, gone)]);
  return { ...edit, seen: Object.fromEntries(seen) };
}

function backTo(by: unknown, gone: ReadonlyMap<string, OutboxEdit>): unknown {
  const named = typeof by === "string" ? gone.get(by) : undefined;
  return named ? backTo(named.seen, gone) : by;
}

/** What goes over the line of an edit. */
const WIRE = [
  "id",
  "kind",
  "table",
  "record",
  "field",
  "seen",
  "was",
  "now",
  "format",
  "phone_time",
  "settles",
] as const satisfies readonly (keyof Edit)[];

export interface Push {
  person: string;
  device: string | null;
  sets: { id: string; site: string; cursor: number | null; edits: Pick<Edit, (typeof WIRE)[number]>[] }[];
}

/** The first sets of the outbox, whole sets only, as many as the server takes at once. `alone`: one set. */
export function nextPush(outbox: readonly OutboxEdit[], alone: boolean): OutboxEdit[] {
  const chosen: OutboxEdit[] = [];
  let bytes = 0;
  for (const edits of setsOf(outbox.filter((edit) => !edit.aside))) {
    const more = edits.reduce((sum, edit) => sum + bytesOf(edit), 0);
    const full = chosen.length + edits.length > MOST_EDITS || bytes + more > MOST_BYTES;
    if (chosen.length && (alone || full)) break;
    chosen.push(...edits);
    bytes += more;
  }
  return chosen;
}

export function pushOf(edits: readonly OutboxEdit[], person: string, device: string | null): Push {
  const sets = setsOf(edits).map(([first, ...more]) => ({
    id: first.set,
    site: first.site,
    cursor: first.cursor,
    edits: [first, ...more].map(wired),
  }));
  return { person, device, sets };
}

function wired(edit: Edit): Push["sets"][number]["edits"][number] {
  return Object.fromEntries(WIRE.map((name) => [name, edit[name]])) as ReturnType<typeof wired>;
}

/** The edits by set, sets in the order of their first edits. */
export function setsOf(edits: readonly OutboxEdit[]): [OutboxEdit, ...OutboxEdit[]][] {
  const sets = new Map<string, [OutboxEdit, ...OutboxEdit[]]>();
  for (const edit of [...edits].sort(byPlace)) {
    const found = sets.get(edit.set);
    if (found) found.push(edit);
    else sets.set(edit.set, [edit]);
  }
  return [...sets.values()];
}

const WRITER = new TextEncoder();

/** How long an edit is on the line, in bytes. */
export function bytesOf(edit: Partial<Edit>): number {
  const written = JSON.stringify(Object.fromEntries(WIRE.map((name) => [name, edit[name]])));
  return WRITER.encode(written).length + 1;
}

export type Fullness = "ok" | "warn" | "full";

/** Whether it is time to find a signal, and whether more can be kept. `now` is the phone's own clock. */
export function fullnessOf(outbox: readonly Pick<OutboxEdit, "kept_at">[], bytes: number, now: number): Fullness {
  if (outbox.length >= FULL_EDITS || bytes >= FULL_BYTES) return "full";
  const oldest = outbox.reduce((least, edit) => Math.min(least, edit.kept_at), now);
  return outbox.length >= WARN_EDITS || now - oldest >= WARN_AFTER_S ? "warn" : "ok";
}

/** Changes that set back what edits did, in the opposite order. `before` is what each had found on the screen. */
export function inverseOf(
  edits: readonly Pick<OutboxEdit, "kind" | "table" | "record" | "field" | "now" | "before">[],
) {
  return [...edits].reverse().map((edit): Change => inverse(edit));
}

function inverse(edit: Parameters<typeof inverseOf>[0][number]): Change {
  const at = { table: edit.table, record: edit.record };
  if (edit.kind === "add" || edit.kind === "restore") return { kind: "remove", ...at };
  if (edit.kind === "remove") return { kind: "restore", ...at };
  if (edit.field === REMOVED) return { kind: edit.before === true ? "remove" : "restore", ...at };
  return { kind: "set", ...at, field: edit.field ?? "", now: edit.before };
}
