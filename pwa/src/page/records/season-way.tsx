/** The way from a hydrozone's record to its season of soil water. */

import { go } from "../way/way";
import { t } from "../words/catalogue";

export function SeasonWay({ hydrozone }: { hydrozone: string }) {
  return (
    <p class="record-ways">
      <button type="button" class="button" onClick={() => go("need", "hydrozone", hydrozone)}>
        {t("Soil water, day by day")}
      </button>
    </p>
  );
}
