/** A form over one record and what hangs together with it: its draft, its faults, and keeping it. */

import { signal } from "@preact/signals";
import { type Kept, keepChanges } from "../edits/keeping";
import type { EffectState } from "../effect/effect";
import type { SiteRecord } from "../site/document";
import { mayEdit, mayNote } from "../store/queries";
import type { Change } from "../store/shapes";
import type { Fault } from "./checking";
import { changesWith, draftOf, dropDraft, putDraft, records, recordsWith } from "./desk";
import { type Draft, splitKey, type Values, withValues } from "./draft";
import { groupOf } from "./fields";
import type { Records } from "./records";
import { faultsOfRecord } from "./whole";

export interface Form {
  /** The draft's name on the desk. */
  name: string;
  table: string;
  /** As it would be; absent where somebody else has removed it meanwhile. */
  record: SiteRecord | undefined;
  /** As it is in force on this phone; absent where it is new. */
  was: SiteRecord | undefined;
  records: Records;
  draft: Draft;
  changes: Change[];
  faults: Fault[];
  mayEdit: boolean;
  mayNote: boolean;
}

/** Forms whose faults are all shown, because somebody wanted to keep them. */
const tried = signal<ReadonlySet<string>>(new Set());
/** What is typed and cannot be read, by form and field: in words, as the field said it. */
const unread = signal<ReadonlyMap<string, string>>(new Map());
/** What the form's changes would do, as far as it is known: faults of the whole document among it. */
const effects = signal<{ name: string; state: EffectState }>({ name: "", state: { is: "none" } });

export function formOf(name: string, table: string, id: string): Form {
  const draft = draftOf(name);
  const laid = recordsWith(draft);
  return {
    name,
    table,
    record: laid.get(table, id),
    was: records.value.get(table, id),
    records: laid,
    draft,
    changes: changesWith(draft),
    faults: allFaults(name, draft, laid),
    mayEdit: mayEdit.value,
    mayNote: mayNote.value,
  };
}

/** Those of every touched record that can be told here, then what the engine adds to them. */
function allFaults(name: string, draft: Draft, laid: Records): Fault[] {
  const touched = [...draft.keys()].map((key) => laid.get(...splitKey(key)));
  const own = touched.flatMap((record) => (record ? faultsOfRecord(record, laid) : []));
  const known = new Set(own.map((fault) => `${fault.table}/${fault.record}/${fault.field}`));
  const state = effectOf(name);
  const told = state.is === "unsound" ? state.faults : [];
  return [...own, ...told.filter((fault) => !known.has(`${fault.table}/${fault.record}/${fault.field}`))];
}

export function tellEffect(name: string, state: EffectState): void {
  effects.value = { name, state };
}

export function effectOf(name: string): EffectState {
  return effects.value.name === name ? effects.value.state : { is: "none" };
}

export function setFields(form: Form, values: Values): void {
  if (form.record) putDraft(form.name, withValues(form.draft, form.table, form.record.id, values));
}

/** What a field says of itself that it cannot read; null once it can. */
export function reportUnread(form: Form, field: string, fault: string | null): void {
  const key = `${form.name}#${field}`;
  const next = new Map(unread.peek());
  if (fault === null) next.delete(key);
  else next.set(key, fault);
  unread.value = next;
}

export function unreadIn(name: string): string[] {
  return [...unread.value].filter(([key]) => key.startsWith(`${name}#`)).map(([, fault]) => fault);
}

export const isTried = (name: string): boolean => tried.value.has(name);

/** A fault is shown where the field was touched or the engine found it, or once somebody wanted to keep the form. */
export function isShown(form: Form, fault: Fault): boolean {
  const state = effectOf(form.name);
  const fromEngine = state.is === "unsound" && state.faults.includes(fault);
  if (fromEngine || isTried(form.name)) return true;
  const touch = form.draft.get(`${fault.table}/${fault.record}`);
  if (touch?.is !== "changed") return false;
  const group = groupOf(fault.table, fault.field ?? "");
  return Object.keys(touch.values).some((field) => groupOf(fault.table, field) === group);
}

/** Nothing that was typed is lost: the draft stays until it is kept or put back. */
export function putBack(name: string): void {
  dropDraft(name);
  unread.value = new Map([...unread.peek()].filter(([key]) => !key.startsWith(`${name}#`)));
  tried.value = new Set([...tried.peek()].filter((one) => one !== name));
}

export type KeepOutcome = Kept | "faults";

/** Keep the form if nothing is wrong with it. Its draft stays until whoever shows it lets go of it. */
export async function keepForm(form: Form, said: () => string): Promise<KeepOutcome> {
  if (form.faults.length === 0 && unreadIn(form.name).length === 0) return keepChanges(form.changes, said);
  tried.value = new Set(tried.peek()).add(form.name);
  return "faults";
}
