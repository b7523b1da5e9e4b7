/** The months as vessels: as high as what is allowed, filled with what was used, a line at what is planned. */

import { t } from "../../words/catalogue";
import { volume } from "../../words/units";
import { monthMark } from "./words";
import { type Bar, barsOf, type Month, topOf } from "./year";

export function MonthBars({ months }: { months: readonly Month[] }) {
  const bars = barsOf(months);
  const above = bars.some((bar) => bar.above > 0);
  return (
    <figure class="budget-picture">
      <p class="budget-top" aria-hidden="true">
        {volume(topOf(months))}
      </p>
      <div class="budget-bars" role="img" aria-label={t("Water by month. The list below says the same in figures.")}>
        {bars.map((bar) => (
          <Vessel key={bar.month} bar={bar} />
        ))}
      </div>
      <figcaption class="budget-keys">
        <Key kind="allowed" name={t("Allowed")} />
        <Key kind="planned" name={t("Planned")} />
        <Key kind="used" name={t("Used")} />
        {above ? <Key kind="above" name={t("Above what is allowed")} /> : null}
      </figcaption>
    </figure>
  );
}

function Vessel({ bar }: { bar: Bar }) {
  const height = (percent: number) => ({ blockSize: `${percent}%` });
  return (
    <span class="budget-month-bar">
      <span class="vessel">
        <span class="vessel-allowed" style={height(bar.allowed)} />
        <span class="vessel-used" style={height(bar.within)} />
        {bar.above > 0 ? (
          <span class="vessel-above" style={{ ...height(bar.above), insetBlockEnd: `${bar.within}%` }} />
        ) : null}
        {bar.planned > 0 ? <span class="vessel-planned" style={{ insetBlockEnd: `${bar.planned}%` }} /> : null}
      </span>
      <span class="budget-mark">{monthMark(bar.month)}</span>
    </span>
  );
}

function Key({ kind, name }: { kind: string; name: string }) {
  return (
    <span class="budget-key">
      <span class={`budget-sign budget-sign-${kind}`} aria-hidden="true" />
      {name}
    </span>
  );
}
