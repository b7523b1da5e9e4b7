/** The way from a turn to how its run time comes about, where it is by need; `always`: also where it is set by hand. */

import type { SiteDocument } from "../site/document";
import { go } from "../way/way";
import { t } from "../words/catalogue";

interface WorkWayProps {
  document: SiteDocument;
  turn: string;
  always?: boolean;
}

export function WorkWay({ document, turn, always = false }: WorkWayProps) {
  const byNeed = document.record("turns", turn)?.mode === "need";
  if (!byNeed && !always) return null;
  return (
    <div class={always ? "station-buttons" : "station-buttons station-own"}>
      {byNeed && always ? (
        <p class="turn-hints">
          {t("This run time is worked out by need. The one set by hand holds where it cannot be.")}
        </p>
      ) : null}
      <button type="button" class="button" onClick={() => go("need", "turn", turn)}>
        {byNeed ? t("Show the work") : t("Have it worked out by need")}
      </button>
    </div>
  );
}
