/** Places in words. */

import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import type { LocatingFault } from "./locating";
import type { Place } from "./place";

/** So many decimals are a metre on the ground. */
const SHOWN = 5;

export function placeWords({ latitude_deg, longitude_deg }: Place): string {
  return t("{latitude}° north, {longitude}° east", {
    latitude: figure(latitude_deg, SHOWN),
    longitude: figure(longitude_deg, SHOWN),
  });
}

export function locatingFaultWords(fault: LocatingFault): string {
  return fault === "not_allowed"
    ? t(
        "This phone does not tell the app where it is. Allow it for this page in the browser’s settings, then try again.",
      )
    : t("This phone does not know where it is. Go where the sky is open, then try again.");
}
