/** Places in words. */

import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { sideBySide } from "../words/lists";
import type { LocatingFault } from "./locating";
import type { Place } from "./place";

/** So many decimals are a metre on the ground. */
const SHOWN = 5;

export function placeWords({ latitude_deg, longitude_deg }: Place): string {
  const [latitude, longitude] = [figure(Math.abs(latitude_deg), SHOWN), figure(Math.abs(longitude_deg), SHOWN)];
  return sideBySide([
    latitude_deg < 0 ? t("{latitude}° south", { latitude }) : t("{latitude}° north", { latitude }),
    longitude_deg < 0 ? t("{longitude}° west", { longitude }) : t("{longitude}° east", { longitude }),
  ]);
}

export function locatingFaultWords(fault: LocatingFault): string {
  return fault === "not_allowed"
    ? t(
        "This phone does not tell the app where it is. Allow it for this page in the browser’s settings, then try again.",
      )
    : t("This phone does not know where it is. Go where the sky is open, then try again.");
}
