/** The parts of this room: each with its word in the address, its title, and a file of its own. */

import type { ComponentType } from "preact";
import { later } from "../way/later";
import { t } from "../words/catalogue";

export interface Part {
  title: () => string;
  /** A line under the title in the list; absent: the part is reached from another. */
  about?: () => string;
  Body: ComponentType<{ words: string[] }>;
}

export const PARTS: Readonly<Record<string, Part>> = {
  tonight: {
    title: () => t("Tonight’s need"),
    about: () => t("What each hydrozone needs tonight, or on which night next"),
    Body: later(() => import("./tonight/page").then((file) => file.TonightNeed)),
  },
  turn: {
    title: () => t("From weather to minutes"),
    Body: later(() => import("./working/page").then((file) => file.WorkPage)),
  },
  hydrozone: {
    title: () => t("Soil water"),
    Body: later(() => import("./season/page").then((file) => file.SeasonPage)),
  },
  suggested: {
    title: () => t("Suggested percentages"),
    about: () => t("What each program’s seasonal percentage should be, by the last days’ weather"),
    Body: later(() => import("./suggested/page").then((file) => file.SuggestedPage)),
  },
  budget: {
    title: () => t("Water budget"),
    about: () => t("A year’s allowance, what is planned and used of it, and what it costs"),
    Body: later(() => import("./budget/page").then((file) => file.BudgetPage)),
  },
  audits: {
    title: () => t("Audits with cans"),
    about: () => t("How evenly a station’s heads wet the ground, and what that costs"),
    Body: later(() => import("./audit/page").then((file) => file.AuditsPage)),
  },
  weather: {
    title: () => t("Weather"),
    about: () => t("Today and yesterday by hand, the days before, and what is odd about them"),
    Body: later(() => import("./weather/page").then((file) => file.WeatherPage)),
  },
  "weather-stations": {
    title: () => t("Weather stations"),
    Body: later(() => import("./weather/stations-page").then((file) => file.WeatherStationsPage)),
  },
  drought: {
    title: () => t("Drought"),
    about: () => t("How much of its need each priority gets while water is short"),
    Body: later(() => import("./drought/page").then((file) => file.DroughtPage)),
  },
};

/** The part that a word of the address names. */
export function partAt(word: string | undefined): Part | undefined {
  return word === undefined ? undefined : PARTS[word];
}
