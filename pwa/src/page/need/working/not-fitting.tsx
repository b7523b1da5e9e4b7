/** Where the night has no room for a turn without runoff, or none at all: what its sheet says of it. */

import { nights } from "../../night/nights";
import { sayFor } from "../../night/reading";
import { SiteClock } from "../../site/clock";
import { site } from "../../store/queries";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { duration } from "../../words/durations";
import { volume } from "../../words/units";
import { remedyFor } from "../told/remedies";

export function NotFitting({ turn, night }: { turn: string; night: string }) {
  const known = nights.value.get(night);
  const document = site.value;
  const found = known?.sheet.shortfalls.filter((one) => one.turn === turn) ?? [];
  if (!known || !document || found.length === 0) return null;
  return (
    <section class="need-warnings" aria-label={t("Did not fit")}>
      <h2>{t("Did not fit")}</h2>
      <ul>
        {found.map((one) => (
          <li key={`${one.why.code} ${one.run_s}`} class="need-warning">
            <p class="need-warning-what">
              {t("{run}, {volume}.", { run: duration(one.run_s), volume: volume(one.volume_l) })}{" "}
              {sayFor({ document, clock: new SiteClock(known.clock) }, one.why)}
            </p>
            <p>{remedyWords(one.why.code)}</p>
            <button type="button" class="button" onClick={() => go("tonight", night)}>
              {t("Show that night")}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

function remedyWords(code: string): string {
  const runsOff = remedyFor({ code: "need.runs_off", params: {} });
  if (code === "short.soak_too_long" && runsOff) return runsOff.words;
  return t("Give it more hours or more nights, or less to others that night.");
}
