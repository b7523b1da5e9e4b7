/** Which stations a walk goes through, and in which order. */

import { standing } from "../alarms/queries";
import { metresAlong, type Place, placeOf } from "../place/place";
import type { SiteDocument, SiteRecord } from "../site/document";
import { linesOf, type StationLine } from "../stations/list";
import { pathThrough } from "./path";

export type By = "all" | "part" | "program" | "hydrozone" | "chosen" | "faulty";

/** What is chosen: a way, and which part, program or hydrozone. */
export interface Chosen {
  by: By;
  which: string;
}

/** Common practice, no source: long enough to walk along the heads of one station. */
export const EACH_S = 120;
export const LEAST_EACH_S = 30;
export const MOST_EACH_S = 1800;

export interface Which {
  value: string;
  label: string;
}

/** What can be chosen of a way; empty where there is nothing to choose. */
export function whichOf(document: SiteDocument, by: By): Which[] {
  if (by === "part") return [...new Set(linesOf(document).map((line) => line.part))].filter(Boolean).map(asWhich);
  const table = by === "program" ? "programs" : by === "hydrozone" ? "hydrozones" : "";
  return document.all(table).map((record) => ({ value: record.id, label: String(record.name ?? record.id) }));
}

const asWhich = (part: string): Which => ({ value: part, label: part });

/** A walk before it begins. */
export interface Planned {
  /** Their ids, in the order of the walk. */
  stations: string[];
  /** How many of them lie nobody knows where: then the walk goes by parts and numbers. */
  unplaced: number;
  /** How far it is from station to station, and to the first from where somebody stands; null: not known. */
  length_m: number | null;
}

/** `selection`: those chosen in the list of stations. `from`: where somebody stands, if that is known. */
export function plan(
  document: SiteDocument,
  chosen: Chosen,
  selection: ReadonlySet<string>,
  from: Place | null,
): Planned {
  const lines = linesOf(document).filter(wantedOf(document, chosen, selection));
  const places = new Map(lines.map(({ id }) => [id, placeOf(document.record("stations", id))]));
  const stations = pathThrough(
    lines.map((line) => ({ ...line, place: places.get(line.id) ?? null })),
    from,
  );
  const way = [from, ...stations.map((id) => places.get(id) ?? null)].filter((place) => place !== null);
  const unplaced = stations.filter((id) => !places.get(id)).length;
  return { stations, unplaced, length_m: unplaced || !stations.length ? null : metresAlong(way) };
}

function wantedOf(
  document: SiteDocument,
  { by, which }: Chosen,
  selection: ReadonlySet<string>,
): (line: StationLine) => boolean {
  if (by === "part") return (line) => line.part === which;
  if (by === "program") return (line) => line.turns.some((turn) => turn.program === which);
  if (by === "hydrozone") return (line) => document.stations.get(line.id)?.hydrozone === which;
  if (by === "all") return () => true;
  const ids = by === "chosen" ? selection : faulty(document);
  return (line) => ids.has(line.id);
}

/** Stations that an alarm speaks of, or at which something is still to be mended. */
export function faulty(document: SiteDocument): Set<string> {
  const mended = document.all("repairs").filter(isToDo);
  const alarmed = standing.value.flatMap((alarm) => [
    alarm.station,
    ...alarm.culprits.map((culprit) => culprit.station),
    ...alarm.trial.stations,
  ]);
  const ids = [...mended.map((repair) => String(repair.station)), ...alarmed];
  return new Set(ids.filter((id): id is string => id !== null));
}

export function isToDo(repair: SiteRecord): boolean {
  return repair.state !== "done" && repair.state !== "dropped";
}
