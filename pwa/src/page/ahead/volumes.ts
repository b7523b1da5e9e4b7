/** Volumes down a column: all in one unit, named once at its head, in whole figures. */

import { bareFigure, shownUnit, symbol, type Unit } from "../words/units";
import type { Outlook } from "./outlook";

/** The unit in which this reader sees the largest night. */
function unitOf(outlook: Outlook): Unit {
  const largest = Math.max(0, ...[...outlook.nights.values()].map((night) => night.sheet.volume_l));
  return shownUnit("volume", largest);
}

export function bareVolume(litres: number, outlook: Outlook): string {
  return bareFigure({ ...unitOf(outlook), places: 0 }, litres);
}

export function volumeUnit(outlook: Outlook): string {
  return symbol(unitOf(outlook));
}
