/** What a window or a closure speaks of: the whole site, or one thing or several at once. */

import type { SiteRecord } from "../site/document";
import { t } from "../words/catalogue";
import { listed } from "../words/lists";
import type { Table } from "./fields";
import { type Records, textOf } from "./records";

export const SCOPES = ["supply", "controller", "hydrozone", "program", "station"] as const;
export type Scope = (typeof SCOPES)[number];

export const SCOPE_TABLES: Record<Scope, Table> = {
  supply: "supplies",
  controller: "controllers",
  hydrozone: "hydrozones",
  program: "programs",
  station: "stations",
};

export function scopesOf(record: SiteRecord): Scope[] {
  return SCOPES.filter((scope) => textOf(record, scope) !== "");
}

/** In words: `Whole site`, `Main North`, `Lawns and Cabinet North`. */
export function scopeWords(record: SiteRecord, records: Records): string {
  const named = scopesOf(record).map((scope) => nameIn(records, scope, textOf(record, scope)));
  return named.length ? listed(named) : t("whole site");
}

function nameIn(records: Records, scope: Scope, id: string): string {
  const record = records.get(SCOPE_TABLES[scope], id);
  const number = textOf(record, "number");
  return [number, textOf(record, "name")].filter(Boolean).join(" ") || id;
}
