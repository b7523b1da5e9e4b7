/** The year hydrozone by hydrozone. */

import type { Budget } from "../../line/api";
import type { SiteDocument } from "../../site/document";
import { t } from "../../words/catalogue";
import { WaterTable } from "./water-table";
import { zonesOf } from "./year";

export function ZoneTable({ document, budget }: { document: SiteDocument; budget: Budget }) {
  const rows = zonesOf(budget).map((zone) => ({
    key: zone.hydrozone,
    name: document.nameOf("hydrozone", zone.hydrozone),
    water: zone,
  }));
  return (
    <details class="as-table">
      <summary>{t("The year by hydrozone")}</summary>
      <WaterTable label={t("The year by hydrozone")} head={t("Hydrozone")} rows={rows} />
    </details>
  );
}
