/** What lies between the site as it stood and as it is now: which records came and went, and which fields changed. */

import { groupValue } from "../records/changes";
import { groupsOf } from "../records/fields";
import type { SiteRecord } from "../site/document";

export interface FieldChange {
  table: string;
  record: string;
  field: string;
  stood: unknown;
  now: unknown;
}

export interface Difference {
  added: SiteRecord[];
  removed: SiteRecord[];
  changed: FieldChange[];
}

export function difference(then: readonly SiteRecord[], now: readonly SiteRecord[]): Difference {
  const key = (record: SiteRecord) => `${record.table}/${record.id}`;
  const were = new Map(then.map((record) => [key(record), record]));
  const are = new Set(now.map(key));
  return {
    added: now.filter((record) => !were.has(key(record))),
    removed: then.filter((record) => !are.has(key(record))),
    changed: now.flatMap((record) => {
      const was = were.get(key(record));
      return was ? changedIn(was, record) : [];
    }),
  };
}

function changedIn(was: SiteRecord, is: SiteRecord): FieldChange[] {
  return Object.keys(groupsOf(is.table)).flatMap((field) => {
    const [stood, now] = [groupValue(was, is.table, field), groupValue(is, is.table, field)];
    if (JSON.stringify(stood) === JSON.stringify(now)) return [];
    return [{ table: is.table, record: is.id, field, stood, now }];
  });
}

export function isEmpty({ added, removed, changed }: Difference): boolean {
  return added.length + removed.length + changed.length === 0;
}
