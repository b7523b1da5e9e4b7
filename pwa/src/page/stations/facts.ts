/** What there is to know about a station, in the reader's words and units. */

import { placeOf } from "../place/place";
import { placeWords } from "../place/words";
import { choiceWord } from "../records/choice-words";
import type { SiteDocument, SiteRecord } from "../site/document";
import { t } from "../words/catalogue";
import { amount } from "../words/units";

export interface Fact {
  name: string;
  words: string;
}

/** Only what is known of it. */
export function factsOf(document: SiteDocument, id: string): Fact[] {
  const record = document.record("stations", id);
  if (!record) return [];
  const place = placeOf(record);
  const facts: (Fact | null)[] = [
    named(t("Part"), text(record.part)),
    named(t("Flow"), measured(record, "flow_lpm", "flow")),
    named(t("Supply"), linked(document, record, "supply")),
    named(t("Controller"), linked(document, record, "controller")),
    named(t("Hydrozone"), linked(document, record, "hydrozone")),
    named(t("Heads"), record.heads ? choiceWord("stations", "heads", text(record.heads)) : ""),
    named(t("Area"), measured(record, "area_m2", "area")),
    named(t("Pressure"), measured(record, "pressure_kpa", "pressure")),
    named(t("Valve current"), measured(record, "current_ma", "current")),
    named(t("Place"), place ? placeWords(place) : ""),
  ];
  return facts.filter((fact) => fact !== null);
}

function named(name: string, words: string): Fact | null {
  return words ? { name, words } : null;
}

function text(value: unknown): string {
  return typeof value === "string" ? value : "";
}

function measured(record: SiteRecord, field: string, quantity: string): string {
  const value = record[field];
  return typeof value === "number" ? amount(quantity, value) : "";
}

function linked(document: SiteDocument, record: SiteRecord, kind: "supply" | "controller" | "hydrozone"): string {
  const id = text(record[kind]);
  return id ? document.nameOf(kind, id) : "";
}
