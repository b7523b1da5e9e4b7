/** One day in the list: what was read, by what rung its reference came, and what is odd about it. */

import { numberOf } from "../../records/records";
import { StateBadge } from "../../records/state-badge";
import type { SiteRecord } from "../../site/document";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { sideBySide } from "../../words/lists";
import { shortDay } from "../../words/moments";
import { amount } from "../../words/units";
import { rungWords } from "../told/rungs";
import type { WeatherDay } from "./days";
import { FlagList } from "./flag-list";

export function DayRow({ shown }: { shown: WeatherDay }) {
  const { day, observed, told } = shown;
  return (
    <>
      <button type="button" class="row weather-row" onClick={() => go("need", "weather", day)}>
        <span class="row-what">
          <span class="row-name">{shortDay(day)}</span>
          <span class="row-under">{readingWords(shown)}</span>
          {told ? <span class="row-under">{rungWords(told.rung)}</span> : null}
        </span>
        {told?.et_mm == null ? null : (
          <span class="row-end">
            <span class="unseen">{t("Reference evapotranspiration")} </span>
            <span class="row-length">{amount("depth", told.et_mm)}</span>
          </span>
        )}
        {observed ? <StateBadge table="weather" id={observed.id} /> : null}
      </button>
      {told ? <FlagList day={day} flags={told.flags} /> : null}
    </>
  );
}

function readingWords({ observed, forecast }: WeatherDay): string {
  if (observed) return sideBySide(readings(observed)) || t("No reading");
  return forecast ? sideBySide([t("Forecast"), ...readings(forecast)]) : t("Nothing was read");
}

function readings(record: SiteRecord): string[] {
  const [low, high, rain] = ["low_degc", "high_degc", "rain_mm"].map((field) => numberOf(record, field));
  return [
    low == null || high == null
      ? ""
      : t("{low} to {high}", { low: amount("temperature", low), high: amount("temperature", high) }),
    rain == null ? "" : t("rain {depth}", { depth: amount("depth", rain) }),
  ];
}
