/** The words a choice offers: every choice of every field of the document. */

import { t } from "../words/catalogue";
import { NEED_WORDS } from "./need-choices";
import { REPAIR_CHOICES } from "./repair-words";

export function choiceWord(table: string, field: string, choice: string): string {
  return (WORDS[`${table}.${field}.${choice}`] ?? WORDS[`${field}.${choice}`] ?? (() => choice))();
}

/** What the empty choice of an optional field says. */
export function noChoice(table: string, field: string): string {
  if (table === "programs" && field === "aim") return t("As the site has it");
  return t("Not known");
}

export const WORDS: Record<string, () => string> = {
  ...NEED_WORDS,
  ...REPAIR_CHOICES,
  "catch_up_by_itself.never": () => t("A person accepts it"),
  "catch_up_by_itself.keep": () => t("It keeps to the clock by itself"),
  "catch_up_by_itself.recover": () => t("What was missed is made up for by itself"),
  "aim.earliest": () => t("As early as can be"),
  "aim.latest": () => t("As late as the finish allows"),
  "water.well": () => t("Well"),
  "water.pond": () => t("Pond"),
  "water.town": () => t("Town water"),
  "water.reclaimed": () => t("Reclaimed water"),
  "water.rain": () => t("Rain water"),
  "soil.sand": () => t("Sand"),
  "soil.loamy_sand": () => t("Loamy sand"),
  "soil.sandy_loam": () => t("Sandy loam"),
  "soil.loam": () => t("Loam"),
  "soil.silt_loam": () => t("Silt loam"),
  "soil.clay_loam": () => t("Clay loam"),
  "soil.clay": () => t("Clay"),
  "exposure.open": () => t("Open"),
  "exposure.half_shade": () => t("Half shade"),
  "exposure.shade": () => t("Shade"),
  "heads.spray": () => t("Spray heads"),
  "heads.rotor": () => t("Rotors"),
  "heads.drip": () => t("Drip"),
  "heads.bubbler": () => t("Bubblers"),
  "heads.micro": () => t("Micro-sprays"),
  "order.free": () => t("Any order that fits best"),
  "order.listed": () => t("In the listed order"),
  "cause.authority": () => t("Water authority’s rule"),
  "cause.event": () => t("Event"),
  "cause.mowing": () => t("Mowing"),
  "cause.works": () => t("Works"),
  "cause.tide": () => t("Tide"),
  "cause.other": () => t("Another cause"),
  "days.every_day": () => t("Every day"),
  "days.weekdays": () => t("Days of the week"),
  "days.every_n": () => t("Every so many days"),
  "days.odd": () => t("Odd days of the month"),
  "days.even": () => t("Even days of the month"),
  "days.dates": () => t("Listed dates"),
  "days.asked": () => t("Only when asked for"),
};
