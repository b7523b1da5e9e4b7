/** The need of the last days beside that of the peak: what every suggestion here follows from. */

import { t } from "../../words/catalogue";
import { amount } from "../../words/units";
import type { Need } from "./suggestions";
import { pct } from "./words";

export function NeedNow({ need }: { need: Need }) {
  const share = (100 * need.recent_mm) / need.peak_mm;
  return (
    <section class="need-now" aria-labelledby="need-now">
      <h2 id="need-now">{t("Need now, of the peak")}</h2>
      <p class="need-now-share">{pct(share)}</p>
      <dl>
        <Bar name={t("The last seven days, a day")} mm={need.recent_mm} share={Math.min(100, share)} now />
        <Bar name={t("The peak month, a day")} mm={need.peak_mm} share={Math.min(100, 10_000 / share)} />
      </dl>
      <p class="need-now-how">
        {t("Run times set by hand for the peak are multiplied by this, rounded to five. Common practice, no source.")}
      </p>
    </section>
  );
}

function Bar({ name, mm, share, now = false }: { name: string; mm: number; share: number; now?: boolean }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{amount("depth", mm)}</dd>
      <span class={now ? "need-bar need-bar-now" : "need-bar"} style={{ inlineSize: `${share}%` }} aria-hidden="true" />
    </div>
  );
}
