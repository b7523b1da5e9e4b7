/** The usual cautions of the trade, where a page is about what can hurt somebody. */

import type { SiteRecord } from "../site/document";
import { t } from "../words/catalogue";
import type { Records } from "./records";
import { textOf } from "./records";

/** Every caution that a record's page shows, the gravest first. */
export function cautionsFor(record: SiteRecord, records: Records): string[] {
  if (record.table === "controllers") return [cabinet()];
  if (record.table === "supplies")
    return [...(waterOf(record, records) === "reclaimed" ? [reclaimed()] : []), pressure()];
  if (record.table !== "stations") return [];
  const supply = records.get("supplies", textOf(record, "supply"));
  return waterOf(supply, records) === "reclaimed" ? [reclaimed()] : [];
}

/** A main carries the water of the source it hangs on. */
export function waterOf(supply: SiteRecord | undefined, records: Records): string {
  const seen = new Set<string>();
  let at = supply;
  while (at && textOf(at, "fed_by") && !seen.has(at.id)) {
    seen.add(at.id);
    at = records.get("supplies", textOf(at, "fed_by"));
  }
  return textOf(at, "water") || "town";
}

function cabinet(): string {
  return t(
    "Caution: a cabinet holds mains and 24 V wiring. Switch off and lock out before opening it; work inside is for qualified people under your local electrical code. What is changed here changes the plan, not the wiring.",
  );
}

function pressure(): string {
  return t(
    "Caution: pipes and pumps stay under pressure when no valve is open. Shut off and drain before working on them, and keep to your local codes and to licensed practice.",
  );
}

function reclaimed(): string {
  return t(
    "Caution: reclaimed water is not for drinking or washing. Keep people away while it runs, keep its pipes and boxes marked, and follow the water authority’s rules.",
  );
}
