/** Where the site has a percentage of its own, it counts besides every program's: said before anybody lowers both. */

import type { SiteDocument } from "../../site/document";
import { pctOf, siteId } from "../../stations/seasonal";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { pct } from "./words";

export function SiteShare({ document }: { document: SiteDocument }) {
  const own = pctOf(document, "site", siteId(document));
  if (own === 100) return null;
  return (
    <div class="suggested-unknown">
      <p>
        {t(
          "The whole site is at {percent} already, and every program’s percentage is multiplied by that. Set it to 100 before you take suggestions, or the season counts twice.",
          { percent: pct(own) },
        )}
      </p>
      <button type="button" class="button" onClick={() => go("stations", "seasonal")}>
        {t("Seasonal percentage")}
      </button>
    </div>
  );
}
