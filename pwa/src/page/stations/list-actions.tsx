/** What can be done from the list: choose several, and change the run times of those. */

import { mayEdit, mayNote } from "../store/queries";
import { go } from "../way/way";
import { underWayWords } from "../wet-check/under-way";
import { t, tn } from "../words/catalogue";
import { choosing, chosen, endChoosing, toggleAll } from "./choosing";

/** Who may not change anything is offered nothing here: each station's page says who may. */
export function ListActions() {
  if (!mayNote.value) return null;
  const far = underWayWords();
  return (
    <div class="station-buttons">
      {mayEdit.value ? (
        <>
          <button type="button" class="button" onClick={() => go("stations", "seasonal")}>
            {t("Seasonal percentage")}
          </button>
          <button type="button" class="button" onClick={() => go("stations", "ask")}>
            {t("Ask for a run")}
          </button>
        </>
      ) : null}
      <button type="button" class="button" onClick={() => go("wet-check")}>
        {far ? t("Go on with the wet check, {far}", { far }) : t("Wet check")}
      </button>
    </div>
  );
}

export function ChooseButton() {
  if (!mayEdit.value) return null;
  const press = () => {
    if (choosing.peek()) endChoosing();
    else choosing.value = true;
  };
  return (
    <button type="button" class="button station-choose" aria-pressed={choosing.value} onClick={press}>
      {choosing.value ? t("Stop choosing") : t("Choose several")}
    </button>
  );
}

/** At the foot of the list, however far down somebody is. */
export function ChosenBar({ shown }: { shown: readonly string[] }) {
  const count = chosen.value.size;
  const all = shown.every((station) => chosen.value.has(station));
  return (
    <div class="keep-bar">
      <p class="station-chosen" role="status">
        {tn("{count} station chosen", "{count} stations chosen", count)}
      </p>
      <div class="keep-buttons">
        <button type="button" class="button" onClick={() => toggleAll(shown)}>
          {all ? t("Let all go") : t("Choose all")}
        </button>
        <button type="button" class="button" disabled={count === 0} onClick={() => go("wet-check", "chosen")}>
          {t("Wet check")}
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
