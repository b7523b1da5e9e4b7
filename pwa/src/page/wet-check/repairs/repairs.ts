/** Which repairs are shown, in which order, and what is done to one. */

import type { SiteDocument, SiteRecord } from "../../site/document";
import type { Change } from "../../store/shapes";
import { byPartAndNumber } from "../path";
import { type State, stateOf } from "../words";

/** `anybody`: whoever sees to it, or nobody. */
export interface Wanted {
  state: State;
  owner: "anybody" | "nobody" | { name: string };
  station: string | null;
}

export interface StationRepairs {
  station: string;
  repairs: SiteRecord[];
}

/** Station by station, part by part and by number; at one station the oldest first. */
export function repairsByStation(document: SiteDocument, wanted: Wanted): StationRepairs[] {
  const found = document.all("repairs").filter((repair) => isWanted(repair, wanted));
  const stations = new Set(found.map((repair) => String(repair.station)));
  const stops = [...stations].map((id) => ({
    id,
    number: document.stations.get(id)?.number ?? "",
    part: document.stations.get(id)?.part ?? "",
    place: null,
  }));
  return byPartAndNumber(stops).map(({ id }) => ({
    station: id,
    repairs: found
      .filter((repair) => repair.station === id)
      .sort((a, b) => (String(a.found_on ?? "") < String(b.found_on ?? "") ? -1 : 1)),
  }));
}

function isWanted(repair: SiteRecord, { state, owner, station }: Wanted): boolean {
  if (stateOf(repair) !== state || (station !== null && repair.station !== station)) return false;
  if (owner === "anybody") return true;
  return owner === "nobody" ? !repair.owner : repair.owner === owner.name;
}

export function countIn(document: SiteDocument, state: State): number {
  return document.all("repairs").filter((repair) => stateOf(repair) === state).length;
}

/** Everybody who sees to something, by name. */
export function ownersOf(document: SiteDocument): string[] {
  const names = document.all("repairs").map((repair) => String(repair.owner ?? ""));
  return [...new Set(names)].filter(Boolean).sort((a, b) => a.localeCompare(b));
}

/** A repair's photos, by their ids. */
export function photosOf(repair: SiteRecord): string[] {
  return typeof repair.photos === "string" ? repair.photos.split(",").filter(Boolean) : [];
}

/** Only what differs from what is. */
export function changesTo(repair: SiteRecord, next: { state?: State; owner?: string; notes?: string }): Change[] {
  const given = Object.entries(next).map(([field, now]): [string, unknown] => [field, now === "" ? null : now]);
  const was = (field: string) => (field === "state" ? stateOf(repair) : (repair[field] ?? null));
  return given
    .filter(([field, now]) => now !== was(field))
    .map(([field, now]) => ({ kind: "set", table: "repairs", record: repair.id, field, now }));
}
