/** What can be done about the selected run: change its run time, see how it was worked out, ask whether it is dry. */

import type { LoadedNight } from "../night/night";
import type { Run } from "../night/sheet";
import { mayEdit } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { askAbout } from "./subject";

export function WhyActs({ night, run }: { night: LoadedNight; run: Run }) {
  const turn = night.document.record("turns", run.turn);
  return (
    <div class="why-acts">
      {mayEdit.value && turn ? (
        <button type="button" class="button" onClick={() => go("stations", run.station, "turn", run.turn)}>
          {t("Change run time")}
        </button>
      ) : null}
      {turn?.mode === "need" ? (
        <button type="button" class="button" onClick={() => go("need", "turn", run.turn, night.sheet.night)}>
          {t("Show the work")}
        </button>
      ) : null}
      <button type="button" class="button" onClick={() => askAbout({ station: run.station })}>
        {t("Is it dry here until …?")}
      </button>
    </div>
  );
}
