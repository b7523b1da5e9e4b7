/** How a figure was come by: the rung of a day's weather, the way an input was read, where a rate comes from. */

import { t } from "../../words/catalogue";

/** Empty where there is nothing to say. A rung that this page does not know was made by another version. */
export function rungWords(rung: string): string {
  return rung ? (WORDS[rung]?.() ?? rung) : "";
}

/** The same in a word or two, for a table. */
export function rungShort(rung: string): string {
  return SHORT[rung]?.() ?? rung;
}

const SHORT: Readonly<Record<string, () => string>> = {
  given: () => t("handed in"),
  hourly: () => t("by the hour"),
  full: () => t("measured"),
  filled: () => t("estimated"),
  temperature: () => t("temperatures alone"),
  normal: () => t("normal"),
  none: () => t("unknown"),
};

const WORDS: Readonly<Record<string, () => string>> = {
  given: () => t("Evapotranspiration worked out elsewhere and handed in"),
  hourly: () => t("By the hour, from a whole day of readings"),
  full: () => t("By the day, from temperatures, humidity, sun and wind"),
  filled: () => t("By the day, with something estimated"),
  temperature: () => t("From temperatures alone"),
  normal: () => t("The month’s normal: no weather of the day is known"),
  none: () => t("Nothing is known of the day"),
  vapour_dew: () => t("From the dew point"),
  vapour_extremes: () => t("From the highest and the lowest humidity"),
  vapour_dampest: () => t("From the highest humidity"),
  vapour_mean: () => t("From the mean humidity"),
  vapour_low: () => t("Estimated from the lowest temperature"),
  solar_measured: () => t("Measured"),
  solar_sunshine: () => t("From the hours of sunshine"),
  solar_temperatures: () => t("Estimated from the range of temperature"),
  wind_measured: () => t("Measured"),
  wind_raised: () => t("Raised to the least that is counted on"),
  wind_assumed: () => t("Assumed, as no wind was measured"),
  audit: () => t("From an audit with cans"),
  flow_area: () => t("From flow and area"),
};
