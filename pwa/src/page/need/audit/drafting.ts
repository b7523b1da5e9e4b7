/** An audit that somebody works on: its draft, its cans in it, and stations that ran together with its own. */

import { putDraft as keepDraft, draftOf as keptDraft } from "../../edits/drafts";
import { putDraft, records } from "../../records/desk";
import { type Draft, EMPTY, without, withRecord, withValues } from "../../records/draft";
import { numberOf, type Records, textOf } from "../../records/records";
import { todayHere } from "../../records/today";
import type { SiteRecord } from "../../site/document";
import { newId } from "../../store/ids";
import { shortDay } from "../../words/moments";
import { type Can, type Extent, type Place, placesOf } from "./grid";

export const draftName = (id: string): string => `audit/${id}`;
const withName = (name: string): string => `audit-with/${name}`;

/** The cans of an audit, row by row. */
export function cansOf(all: Records, audit: string): Can[] {
  return all
    .of("cans")
    .filter((can) => can.audit === audit)
    .map((can) => ({
      id: can.id,
      column: numberOf(can, "column") ?? 0,
      row: numberOf(can, "row") ?? 0,
      catch: numberOf(can, "catch"),
    }))
    .sort((a, b) => a.row - b.row || a.column - b.column);
}

/** Begin an audit of a station: today, with the cans that the site's last audit was done with. */
export function beginAudit(name: string, station: string): void {
  const all = records.peek();
  const last = [...all.of("audits")].sort((a, b) => (textOf(a, "day") < textOf(b, "day") ? 1 : -1))[0];
  const same = ["caught_in", "opening_cm2", "spacing_m"].map((field) => [field, last?.[field] ?? null] as const);
  const day = todayHere.peek();
  const title = textOf(all.get("stations", station), "number") || textOf(all.get("stations", station), "name");
  const record: SiteRecord = {
    table: "audits",
    id: newId(),
    name: [title, shortDay(day)].filter(Boolean).join(", "),
    station,
    day,
    ...Object.fromEntries(same),
  };
  putDraft(name, withRecord(EMPTY, record));
}

/** Cans in every place of a grid that has none yet. */
export function withGrid(draft: Draft, audit: string, has: readonly Can[], extent: Extent): Draft {
  const free = placesOf(extent).filter(
    (place) => !has.some((can) => can.column === place.column && can.row === place.row),
  );
  return free.reduce((next, place) => withRecord(next, aCan(audit, place)), draft);
}

export function aCan(audit: string, { column, row }: Place): SiteRecord {
  return { table: "cans", id: newId(), audit, column, row };
}

export const withReading = (draft: Draft, can: string, read: number | null): Draft =>
  withValues(draft, "cans", can, { catch: read });

export const withPlace = (draft: Draft, can: string, { column, row }: Place): Draft =>
  withValues(draft, "cans", can, { column, row });

export const withoutCan = (draft: Draft, can: string): Draft => without(draft, "cans", can);

/** Stations that ran together with the audit's own, on the same ground: the same figures count for each. */
export const othersOf = (name: string): string[] => keptDraft<string[]>(withName(name)) ?? [];

export const putOthers = (name: string, stations: readonly string[]): void =>
  keepDraft(withName(name), stations.length ? stations : null);

/** The draft with an audit of its own for each station that ran with it: one record of the document is of one station. */
export function withOthers(draft: Draft, audit: SiteRecord, cans: readonly Can[], stations: readonly string[]): Draft {
  return stations
    .filter((station) => station !== audit.station)
    .reduce((next, station) => {
      const copy = { ...audit, id: newId(), station };
      const caught = cans.map((can) => ({ ...aCan(copy.id, can), catch: can.catch }));
      return caught.reduce(withRecord, withRecord(next, copy));
    }, draft);
}
