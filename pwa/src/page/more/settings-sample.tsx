/** How times, dates and amounts look with the choices as they stand. */

import { t } from "../words/catalogue";
import { weekdayName } from "../words/day-rules";
import { longDay, timeParts } from "../words/moments";
import { weekOrder } from "../words/week";
import { MEASURED, type Measured, measuredName, sample } from "./settings-options";

/** An evening in late October, before midnight, so that a 12-hour clock and the day's place in the month show. */
const WALL = new Date(Date.UTC(2026, 9, 24, 23, 42));

export function SettingsSample() {
  const { digits, half } = timeParts(WALL);
  return (
    <section class="sample" aria-label={t("Sample")}>
      <p class="sample-time">
        <span class="sample-clock">
          <bdi>{digits}</bdi>
          {half ? <span class="sample-half">{half}</span> : null}
        </span>
        <span>{longDay("2026-10-24")}</span>
      </p>
      <ol class="sample-week" aria-label={t("The week")}>
        {weekOrder().map((day) => (
          <li key={day}>{weekdayName(day, "short")}</li>
        ))}
      </ol>
      <dl class="sample-amounts">
        {(Object.keys(MEASURED) as Measured[]).map((quantity) => (
          <div key={quantity}>
            <dt>{measuredName(quantity)}</dt>
            <dd>{sample(quantity)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
