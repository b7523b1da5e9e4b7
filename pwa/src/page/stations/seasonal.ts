/** The seasonal percentages: what they make of a run time. */

import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { figure } from "../words/figures";

export const MOST_PCT = 300;

/** The site's percentage times the program's, in percent. */
export function seasonalPct(document: SiteDocument, program: string): number {
  const site = pctOf(document, "site", siteId(document));
  return (site * pctOf(document, "programs", program)) / 100;
}

export function pctOf(document: SiteDocument, table: "site" | "programs", id: string): number {
  const value = document.record(table, id)?.seasonal_pct;
  return typeof value === "number" ? value : 100;
}

export function siteId(document: SiteDocument): string {
  return document.all("site")[0]?.id ?? "";
}

/** Empty where it runs as long as it says. */
export function seasonalWords(document: SiteDocument, turn: { program: string; run_s: number }): string {
  const pct = seasonalPct(document, turn.program);
  if (pct === 100) return "";
  const words = { pct: figure(pct, 1), duration: duration(Math.round((turn.run_s * pct) / 100)) };
  return t("At {pct} % of the season: {duration}.", words);
}
