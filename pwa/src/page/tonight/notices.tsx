/** What the night has to say that is no run: the clock changes, a run ends outside its window, and the caution that goes with it all. */

import type { LoadedNight } from "../night/night";
import { sayFor } from "../night/reading";
import { t } from "../words/catalogue";
import { CAUTIONS } from "./cautions";

export function Notices({ night }: { night: LoadedNight }) {
  return (
    <section class="notices" aria-labelledby="notices-title">
      <div class="list-head">
        <h2 id="notices-title">{t("Notices")}</h2>
      </div>
      <ul>
        {night.sheet.notices
          .filter((notice) => !CAUTIONS.has(notice.code))
          .map((notice, index) => (
            <li key={`${notice.code}-${index}`}>{sayFor(night, notice)}</li>
          ))}
        <li class="caution">
          {t(
            "Caution: this is the plan, not the valve. Valves may open at any time; follow your site's rules before you work on one.",
          )}
        </li>
      </ul>
    </section>
  );
}
