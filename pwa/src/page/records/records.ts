/** A document's flat records, looked up by table and id. */

import type { SiteRecord } from "../site/document";

export class Records {
  private readonly tables = new Map<string, Map<string, SiteRecord>>();

  constructor(readonly all: readonly SiteRecord[]) {
    for (const record of all) {
      const table = this.tables.get(record.table) ?? new Map<string, SiteRecord>();
      this.tables.set(record.table, table.set(record.id, record));
    }
  }

  of(table: string): SiteRecord[] {
    return [...(this.tables.get(table)?.values() ?? [])];
  }

  get(table: string, id: string): SiteRecord | undefined {
    return this.tables.get(table)?.get(id);
  }

  get site(): SiteRecord | undefined {
    return this.of("site")[0];
  }
}

/** A text field of a record; empty where there is none. */
export function textOf(record: SiteRecord | undefined, field: string): string {
  const value = record?.[field];
  return typeof value === "string" ? value : "";
}

export function numberOf(record: SiteRecord | undefined, field: string): number | null {
  const value = record?.[field];
  return typeof value === "number" ? value : null;
}
