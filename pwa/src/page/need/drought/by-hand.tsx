/** Where every run time is set by hand, a drought rule does nothing: what does it instead. */

import { go } from "../../way/way";
import { t } from "../../words/catalogue";

export function ByHandAlone() {
  return (
    <div class="drought-by-hand">
      <p>
        {t(
          "No turn of this site is worked out by need, so that a drought rule changes nothing tonight. Run times set by hand are lowered by their seasonal percentage.",
        )}
      </p>
      <button type="button" class="button" onClick={() => go("stations", "seasonal")}>
        {t("Seasonal percentage")}
      </button>
    </div>
  );
}
