/** Which stations a walk goes through, and in which order. */

import { standing } from "../alarms/queries";
import type { SiteDocument, SiteRecord } from "../site/document";
import { linesOf, type StationLine } from "../stations/list";
import { type Place, pathThrough } from "./path";

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

/** The stations' ids in the order of the walk. `selection`: those chosen in the list of stations. */
export function stationsOf(document: SiteDocument, chosen: Chosen, selection: ReadonlySet<string>): string[] {
  const wanted = wantedOf(document, chosen, selection);
  const lines = linesOf(document).filter(wanted);
  return pathThrough(lines.map((line) => ({ ...line, place: placeOf(document.record("stations", line.id)) })));
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

/** Where a station lies, where its record says so. */
export function placeOf(station: SiteRecord | undefined): Place | null {
  const [latitude_deg, longitude_deg] = [station?.latitude_deg, station?.longitude_deg];
  if (typeof latitude_deg !== "number" || typeof longitude_deg !== "number") return null;
  return { latitude_deg, longitude_deg };
}
