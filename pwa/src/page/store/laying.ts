/** Edits laid over a copy of the records: what a phone shows before the server has answered. */

import type { SiteRecord } from "../site/document";
import { partsOf, REMOVED, TABLE_ORDER } from "./groups";
import { type Kept, keyOf, type OutboxEdit, type PulledRecord, type Removed } from "./kept";
import type { EditKind } from "./shapes";

/** What of an edit matters to the screen. */
export interface Laid {
  kind: EditKind;
  table: string;
  record: string;
  field: string | null;
  now: unknown;
}

type Shown = Map<string, SiteRecord>;

/** The records with the edits applied in order, by `table/id`. Nothing that is given is changed. */
export function laidOver(
  records: ReadonlyMap<string, Pick<PulledRecord, "record">>,
  removed: ReadonlyMap<string, Pick<Removed, "last">>,
  edits: Iterable<Laid>,
): Shown {
  const shown: Shown = new Map();
  for (const [key, { record }] of records) shown.set(key, record);
  const gone: Shown = new Map();
  for (const edit of edits) lay(shown, gone, removed, edit);
  return shown;
}

function lay(shown: Shown, gone: Shown, removed: ReadonlyMap<string, Pick<Removed, "last">>, edit: Laid): void {
  const key = keyOf(edit.table, edit.record);
  if (edit.kind === "add") {
    shown.set(key, added(edit));
  } else if (removes(edit)) {
    const record = shown.get(key);
    if (record) gone.set(key, record);
    shown.delete(key);
  } else if (edit.kind === "restore" || edit.field === REMOVED) {
    const record = shown.get(key) ?? gone.get(key) ?? removed.get(key)?.last;
    if (record) shown.set(key, record);
  } else {
    const record = shown.get(key);
    if (record && edit.field) shown.set(key, withParts(record, partsOf(edit.table, edit.field, edit.now)));
  }
}

function removes(edit: Laid): boolean {
  return edit.kind === "remove" || (edit.kind === "settle" && edit.field === REMOVED && edit.now === true);
}

function added(edit: Laid): SiteRecord {
  const given = typeof edit.now === "object" && edit.now !== null ? edit.now : {};
  return withParts({ table: edit.table, id: edit.record }, { ...given, table: edit.table, id: edit.record });
}

/** Null takes a field back to its default, and what is at its default is left out, as the server has it. */
function withParts(record: SiteRecord, parts: Record<string, unknown>): SiteRecord {
  const next: SiteRecord = { ...record };
  for (const [name, value] of Object.entries(parts)) {
    if (value === null || value === undefined) delete next[name];
    else next[name] = value;
  }
  return next;
}

/** What the screen shows: the copy, over it the answered edits that it lacks, and the outbox. */
export function viewOf(kept: Kept): Shown {
  return laidOver(kept.records, kept.removed, ownAt(kept));
}

/** One's own edits at the copy's site that the copy has not got, oldest first. */
export function ownAt(kept: Pick<Kept, "site" | "outbox" | "overlaid">): OutboxEdit[] {
  return [...kept.overlaid, ...kept.outbox].filter((edit) => edit.site === kept.site).sort(byPlace);
}

export function byPlace(one: { place: number }, other: { place: number }): number {
  return one.place - other.place;
}

/** The shown records in the document's order: table by table, each as it stood, then what was added here. */
export function inOrder(kept: Pick<Kept, "records">, shown: ReadonlyMap<string, SiteRecord>): SiteRecord[] {
  const ordered = [...shown.entries()].map(([key, record], place) => ({
    record,
    table: placeOf(record.table),
    order: kept.records.get(key)?.order ?? Number.MAX_SAFE_INTEGER,
    place,
  }));
  ordered.sort((one, other) => one.table - other.table || one.order - other.order || one.place - other.place);
  return ordered.map((item) => item.record);
}

const PLACES = new Map(TABLE_ORDER.map((table, place) => [table, place]));

function placeOf(table: string): number {
  return PLACES.get(table) ?? PLACES.size;
}
