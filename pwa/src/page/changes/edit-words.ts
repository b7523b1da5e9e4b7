/** What an edit does, in whole sentences: "Run time of N14 Palm walk, north: 48 min → 60 min". */

import { arrow } from "../effect/phrases";
import { fieldLabel } from "../records/field-labels";
import { recordTitle } from "../records/record-words";
import { Records } from "../records/records";
import type { SiteRecord } from "../site/document";
import type { EditKind } from "../store/shapes";
import { t, tn } from "../words/catalogue";
import { valuesWords, valueWords } from "./values";

/** What of an edit its sentence needs, whether it lies in the outbox, a tray or the history. */
export interface Told {
  kind: EditKind;
  table: string;
  record: string;
  field: string | null;
  was: unknown;
  now: unknown;
}

/** What an edit is about, as people call it. */
export function subjectOf(edit: Told, records: Records): string {
  const found = records.get(edit.table, edit.record) ?? addedRecord(edit);
  if (!found && edit.field === "name" && typeof edit.was === "string") return edit.was;
  return recordTitle(found, withRecord(records, found));
}

function addedRecord(edit: Told): SiteRecord | undefined {
  if (edit.kind !== "add" || typeof edit.now !== "object" || edit.now === null) return undefined;
  return { ...edit.now, table: edit.table, id: edit.record };
}

function withRecord(records: Records, record: SiteRecord | undefined): Records {
  if (!record || records.get(record.table, record.id)) return records;
  return new Records([...records.all, record]);
}

export function editWords(edit: Told, records: Records): string {
  const record = subjectOf(edit, records);
  if (edit.kind === "add") return t("{record}: added", { record });
  if (edit.kind === "remove" || (edit.field === "removed" && edit.now === true))
    return t("{record}: removed", { record });
  if (edit.kind === "restore" || edit.field === "removed") return t("{record}: brought back", { record });
  if (edit.field === null) return t("{record}: the other’s value stays", { record });
  const field = fieldLabel(edit.table, edit.field);
  if (edit.kind === "settle") {
    const now = valueWords(edit.table, edit.field, edit.now, records);
    return t("{field} of {record}: settled on {now}", { field, record, now });
  }
  const [was = "", now = ""] = valuesWords(edit.table, edit.field, [edit.was, edit.now], records);
  return t("{field} of {record}: {was} {arrow} {now}", { field, record, was, arrow: arrow(), now });
}

/** A set by its first sentence, and how many more there are. */
export function setWords(edits: readonly Told[], records: Records): string {
  const [first] = edits;
  if (!first) return "";
  const words = editWords(first, records);
  const more = edits.length - 1;
  return more === 0
    ? words
    : tn("{first}, and {count} more edit", "{first}, and {count} more edits", more, { first: words });
}
