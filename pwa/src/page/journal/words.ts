/** What happened, in words. */

import { explainedWords } from "../alarms/words";
import { nameOf } from "../changes/people";
import type { SiteDocument } from "../site/document";
import { t, tn } from "../words/catalogue";
import { flow, volume } from "../words/units";
import { placeName, type Sort } from "./choosing";
import type { Happened } from "./queries";
import type { Found, Kind, Said } from "./shapes";

/** What kind of thing it is, and its figure where it has one. */
export function kindWords(entry: Said | Happened): string {
  const words: Record<Kind, () => string> = {
    opened: () => t("Valve opened"),
    closed: () => t("Valve closed"),
    flow: () => t("{flow} through the meter", { flow: flow(entry.flow_lpm ?? 0) }),
    count: () => t("Counter at {volume}", { volume: volume(entry.count_l ?? 0) }),
    power_lost: () => t("Power lost"),
    power_back: () => t("Power is back"),
    shut: () => t("Water shut off"),
    freed: () => t("Water is back"),
    stopped: () => t("All watering stopped"),
    lifted: () => t("The stop is lifted"),
    alive: () => t("Heard"),
    alarm_opened: () => t("Alarm"),
    alarm_seen: () => t("Alarm seen"),
    alarm_explained: () =>
      entry.explained ? t("Alarm explained: {what}", { what: explainedWords(entry.explained) }) : t("Alarm explained"),
    alarm_ended: () => t("Alarm over"),
    note: () => t("Note"),
    finding: () => findingWords(entry),
    replaced: () => t("New meter, its counter at {volume}", { volume: volume(entry.count_l ?? 0) }),
  };
  return words[entry.kind]();
}

function findingWords({ finding, count }: Said): string {
  const found = foundWords(finding ?? "other");
  return count && count > 1
    ? tn("Found on a walk: {found}, {count} of it", "Found on a walk: {found}, {count} of them", count, { found })
    : t("Found on a walk: {found}", { found });
}

export function foundWords(found: Found): string {
  const words: Record<Found, () => string> = {
    head: () => t("a broken head"),
    tilt: () => t("a tilted head"),
    leak: () => t("a leak"),
    pressure: () => t("wrong pressure"),
    wire: () => t("a broken wire"),
    valve: () => t("a broken valve"),
    clogged: () => t("a clogged nozzle"),
    blocked: () => t("a blocked spray"),
    other: () => t("something else"),
  };
  return words[found]();
}

export function sortWords(sort: Sort): string {
  const words: Record<Sort, () => string> = {
    calm: () => t("All but valves and meters"),
    notes: () => t("Notes and findings"),
    alarms: () => t("Alarms"),
    water: () => t("Power, water and stops"),
    valves: () => t("Valves"),
    meters: () => t("Meters"),
    all: () => t("Everything"),
  };
  return words[sort]();
}

/** Who told it. `names`: reporters and people as the server calls them. */
export function tellerWords(by: string, names: Record<string, string>): string {
  if (by === "server") return t("The server");
  if (by.startsWith("person:")) return nameOf(by.slice("person:".length), names[by] ?? null);
  return names[by] ?? t("A reporter");
}

/** All that stands on an entry's row, to be searched in. `said`: what it says, line by line. */
export function rowWords(
  entry: Happened,
  document: SiteDocument,
  names: Record<string, string>,
  said: readonly string[],
): string {
  return [kindWords(entry), placeName(entry, document), ...said, tellerWords(entry.by, names)].join(" ");
}
