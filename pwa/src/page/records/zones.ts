/** The ways a site's clock can be known, and the zones a browser knows by name. */

import type { SiteRecord } from "../site/document";
import type { ChooserOption } from "./choosing";
import { textOf } from "./records";

export type ClockKind = "zone" | "zone_rule" | "zone_changes";

/** All three kinds empty: a site has exactly one. */
export const CLOCKS: Record<ClockKind, null> = { zone: null, zone_rule: null, zone_changes: null };

export function clockKind(site: SiteRecord): ClockKind {
  if (textOf(site, "zone_rule")) return "zone_rule";
  return textOf(site, "zone_changes") ? "zone_changes" : "zone";
}

/** Names as in the IANA database; where a browser does not list them, the one in force alone. */
export function zoneOptions(current: string): ChooserOption[] {
  const names = new Set([...(current ? [current] : []), ...known(), "Etc/UTC"]);
  return [...names].map((name) => ({ value: name, label: name, about: placeOf(name) }));
}

function known(): string[] {
  return "supportedValuesOf" in Intl ? Intl.supportedValuesOf("timeZone") : [];
}

/** `America/Argentina/Buenos_Aires` is found by `buenos aires` too. */
function placeOf(name: string): string {
  return name.slice(name.lastIndexOf("/") + 1).replaceAll("_", " ");
}
