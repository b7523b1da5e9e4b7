/** What each tray is called, and what is to be done about what lies in it. */

import { t } from "../words/catalogue";
import type { Tray } from "./sets";

export function trayTitle(tray: Tray): string {
  const titles: Record<Tray, () => string> = {
    disputed: () => t("Dispute"),
    removed: () => t("Removed meanwhile"),
    refused: () => t("Refused"),
    held: () => t("Held"),
    parked: () => t("Waits for an update"),
  };
  return titles[tray]();
}

export function trayAbout(tray: Tray): string {
  const abouts: Record<Tray, () => string> = {
    disputed: () => t("Two people set this without knowing of each other."),
    removed: () => t("Somebody removed the record before this edit arrived."),
    refused: () => t("It breaks a limit. Nothing is lost: mend it and keep it again."),
    held: () => t("It came from somebody who may not edit here any more, or not yet. A manager decides."),
    parked: () => t("It comes from a newer app than the server knows. It takes effect once the server is updated."),
  };
  return abouts[tray]();
}
