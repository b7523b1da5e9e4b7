/** Where to go from the work: the hydrozone's season, the turn itself. */

import type { SiteDocument } from "../../site/document";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";

export function WorkWays({ document, turn }: { document: SiteDocument; turn: string }) {
  const station = String(document.record("turns", turn)?.station ?? "");
  const zone = document.stations.get(station)?.hydrozone;
  return (
    <div class="need-ways">
      {zone ? (
        <button type="button" class="button" onClick={() => go("need", "hydrozone", zone)}>
          {t("Soil water of {hydrozone}", { hydrozone: document.nameOf("hydrozone", zone) })}
        </button>
      ) : null}
      <button type="button" class="button" onClick={() => go("stations", station, "turn", turn)}>
        {t("Open the turn")}
      </button>
    </div>
  );
}
