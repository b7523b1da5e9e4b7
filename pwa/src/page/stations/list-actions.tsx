/** What can be done from the list: choose several, and change the run times of those. */

import { mayEdit } from "../store/queries";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { choosing, chosen, endChoosing, toggleAll } from "./choosing";

export function ListActions({ shown }: { shown: readonly string[] }) {
  if (!choosing.value) return <Beginnings />;
  const count = chosen.value.size;
  return (
    <div class="station-actions" data-choosing>
      <p class="station-chosen">{tn("{count} station chosen", "{count} stations chosen", count)}</p>
      <div class="station-buttons">
        <button type="button" class="button" onClick={() => toggleAll(shown)}>
          {shown.every((station) => chosen.value.has(station)) ? t("Let all go") : t("Choose all")}
        </button>
        <button type="button" class="button" onClick={endChoosing}>
          {t("Stop choosing")}
        </button>
        <button
          type="button"
          class="button button-strong"
          disabled={count === 0}
          onClick={() => go("stations", "percent")}
        >
          {t("Change run times")}
        </button>
      </div>
    </div>
  );
}

/** Who may not change anything is offered nothing here: each station's page says who may. */
function Beginnings() {
  if (!mayEdit.value) return null;
  return (
    <div class="station-buttons">
      <button
        type="button"
        class="button"
        onClick={() => {
          choosing.value = true;
        }}
      >
        {t("Choose several")}
      </button>
      <button type="button" class="button" onClick={() => go("stations", "seasonal")}>
        {t("Seasonal percentage")}
      </button>
      <button type="button" class="button" onClick={() => go("stations", "ask")}>
        {t("Ask for a run")}
      </button>
    </div>
  );
}
