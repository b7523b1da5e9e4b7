/** What the fields of repairs, and their choices, are called on screen. */

import { t } from "../words/catalogue";

export const REPAIR_LABELS: Record<string, () => string> = {
  "repairs.found": () => t("What is broken"),
  "repairs.count": () => t("How many"),
  "repairs.state": () => t("State"),
  "repairs.owner": () => t("Who sees to it"),
  "repairs.found_on": () => t("Found on"),
  "repairs.found_by": () => t("Found by"),
  "repairs.finding": () => t("Entry of the journal"),
  "repairs.photos": () => t("Photos"),
};

export const REPAIR_HELPS: Record<string, () => string> = {
  "repairs.station": () => t("The station at which it was found."),
  "repairs.found": () => t("What is broken there."),
  "repairs.count": () => t("How many of them are broken."),
  "repairs.state": () => t("Whether somebody has to see to it still."),
  "repairs.owner": () => t("Who sees to it."),
  "repairs.found_on": () => t("The day it was found."),
  "repairs.found_by": () => t("Who found it."),
  "repairs.finding": () => t("The entry of the journal that told of it."),
  "repairs.photos": () => t("Its photos, by their ids."),
  "repairs.notes": () => t("Where it is, and what mending it takes."),
};

export const REPAIR_CHOICES: Record<string, () => string> = {
  "found.head": () => t("Broken head"),
  "found.tilt": () => t("Tilted head"),
  "found.leak": () => t("Leak"),
  "found.pressure": () => t("Pressure"),
  "found.wire": () => t("Wire"),
  "found.valve": () => t("Valve"),
  "found.clogged": () => t("Clogged"),
  "found.blocked": () => t("Spray blocked"),
  "found.other": () => t("Something else"),
  "state.open": () => t("To do"),
  "state.in_hand": () => t("In hand"),
  "state.done": () => t("Done"),
  "state.dropped": () => t("Dropped"),
};
