/** What keeping a draft means: changes by field group, in an order in which nothing points to what is not there. */

import type { DocumentData, SiteRecord } from "../site/document";
import type { Change } from "../store/shapes";
import { type Draft, splitKey, type Touch, type Values } from "./draft";
import { fieldOf, groupsOf } from "./fields";
import { Records } from "./records";

export function changesOf(data: DocumentData, draft: Draft): Change[] {
  const before = new Records(data.records);
  const [added, changed, removed]: [Change[], Change[], Change[]] = [[], [], []];
  for (const [key, touch] of draft) {
    const was = before.get(...splitKey(key));
    if (touch.is === "added") added.push(addition(touch.record));
    else if (!was) continue;
    else if (touch.is === "removed") removed.push({ kind: "remove", table: was.table, record: was.id });
    else changed.push(...changesIn(was, touch));
  }
  return [...added, ...changed, ...removed.reverse()];
}

function addition(record: SiteRecord): Change {
  const { table, id, ...values } = record;
  const kept = Object.entries(values).map(([name, value]) => [name, normal(table, name, value)] as const);
  return { kind: "add", table, record: id, now: Object.fromEntries(kept.filter(([, value]) => value !== null)) };
}

function changesIn(was: SiteRecord, touch: Extract<Touch, { is: "changed" }>): Change[] {
  const { table, id } = was;
  const now = { ...was, ...touch.values };
  return Object.keys(groupsOf(table)).flatMap((group): Change[] => {
    const [before, after] = [groupValue(was, table, group), groupValue(now, table, group)];
    if (JSON.stringify(before) === JSON.stringify(after)) return [];
    return [{ kind: "set", table, record: id, field: group, now: after }];
  });
}

/** What a record has in a group: a plain value, or an object of the group's fields; null means the default. */
export function groupValue(record: Values, table: string, group: string): unknown {
  const names = groupsOf(table)[group] ?? [group];
  if (names.length === 1 && names[0] === group) return normal(table, group, record[group]);
  return Object.fromEntries(names.map((name) => [name, normal(table, name, record[name])]));
}

/** A field's value as it is kept: null for the default and for nothing. */
export function normal(table: string, name: string, value: unknown): unknown {
  if (value === undefined || value === null || value === "") return null;
  return value === fieldOf(table, name)?.default ? null : value;
}
