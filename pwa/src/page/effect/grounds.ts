/** The site as it stands on this phone, and its nights: what an effect is worked out from. */

import { computed } from "@preact/signals";
import { loaded } from "../night/night";
import { type KnownNight, nights, tonightDate } from "../night/nights";
import type { DocumentData, SiteRecord } from "../site/document";
import { laidOver } from "../store/laying";
import { copy } from "../store/queries";
import type { Change } from "../store/shapes";

/** All nights that are known, that on the screen among them. */
export const knownNights = computed<ReadonlyMap<string, KnownNight>>(() => {
  const shown = loaded.value;
  if (!shown || nights.value.has(shown.sheet.night)) return nights.value;
  const asLoaded: KnownNight = { sheet: shown.sheet, clock: shown.clockData, from: "server", behind: false };
  return new Map(nights.value).set(shown.sheet.night, asLoaded);
});

/** The date of tonight; the earliest night that is known where nobody has said yet. */
export const firstNight = computed(() => tonightDate.value || [...knownNights.value.keys()].sort()[0] || "");

/** The records with changes laid over them, as the planner reads a document. */
export function withChanges(data: DocumentData, changes: readonly Change[]): DocumentData {
  const records = new Map(data.records.map((record) => [`${record.table}/${record.id}`, { record }]));
  const edits = changes.map((change) => ({
    kind: change.kind,
    table: change.table,
    record: change.record,
    field: "field" in change ? change.field : null,
    now: "now" in change ? change.now : null,
  }));
  return { format: data.format, records: [...laidOver(records, new Map(), edits).values()] };
}

/** The turns whose runs a change touches directly; null where it could touch all of them. */
export function touchedTurns(records: readonly SiteRecord[], changes: readonly Change[]): ReadonlySet<string> | null {
  const touched = new Set<string>();
  for (const change of changes) {
    if (change.table === "turns" || change.table === "asked") touched.add(change.record);
    else if (change.table === "programs") {
      for (const record of records) if (record.program === change.record) touched.add(record.id);
    } else return null;
  }
  return touched;
}

/** The first night from tonight on in which something touched runs or falls short; tonight where none is known. */
export function nightOf(changes: readonly Change[]): string {
  const touched = touchedTurns(copy.value?.records ?? [], changes);
  const asked = changes.map(askedNight).find((night) => night !== null);
  if (asked) return asked;
  if (touched === null) return firstNight.value;
  const ordered = [...knownNights.value.keys()].sort().filter((night) => night >= firstNight.value);
  return ordered.find((night) => runsIn(knownNights.value.get(night), touched)) ?? firstNight.value;
}

function askedNight(change: Change): string | null {
  if (change.table !== "asked" || change.kind !== "add") return null;
  return typeof change.now.night === "string" ? change.now.night : null;
}

function runsIn(night: KnownNight | undefined, turns: ReadonlySet<string>): boolean {
  if (!night) return false;
  return [...night.sheet.runs, ...night.sheet.shortfalls].some((item) => turns.has(item.turn));
}
