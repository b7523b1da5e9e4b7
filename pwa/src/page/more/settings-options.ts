/** What can be chosen in the settings, each by its own words. */

import type { Option } from "../controls/choice";
import { t } from "../words/catalogue";
import { WEEKDAYS, weekdayName } from "../words/day-rules";
import { digitSigns } from "../words/figures";
import { offered, ownName } from "../words/languages";
import {
  DIGITS,
  type Digits,
  type FirstDay,
  firstDay,
  type HourCycle,
  type Light,
  type TextSize,
  type UnitSet,
} from "../words/reader";
import { amount, symbol, unitsOf } from "../words/units";
import { usualFirstDay } from "../words/week";

/** What is measured, and an amount in its base unit that people know from their work. */
export const MEASURED = {
  flow: 240,
  volume: 3840,
  depth: 12.5,
  length: 85,
  pressure: 350,
  area: 640,
  temperature: 24,
} as const;
export type Measured = keyof typeof MEASURED;

export function measuredName(quantity: Measured): string {
  const names: Record<Measured, string> = {
    flow: t("Flow"),
    volume: t("Volume"),
    depth: t("Depth of water"),
    length: t("Length"),
    pressure: t("Pressure"),
    area: t("Area"),
    temperature: t("Temperature"),
  };
  return names[quantity];
}

export function sample(quantity: Measured): string {
  return amount(quantity, MEASURED[quantity]);
}

export function languageOptions(): Option<string>[] {
  return offered.map((tag) => ({ value: tag, label: ownName(tag), lang: tag }));
}

export function setOptions(): Option<UnitSet>[] {
  return [
    { value: "metric", label: t("Metric") },
    { value: "us", label: t("US customary") },
    { value: "imperial", label: t("Imperial") },
  ];
}

/** Empty: as the set has it. */
export function unitOptions(quantity: Measured): Option<string>[] {
  const units = Object.entries(unitsOf(quantity)).map(([value, unit]) => ({ value, label: symbol(unit) }));
  return [{ value: "", label: t("As the set above has it") }, ...units];
}

export function hourOptions(): Option<HourCycle>[] {
  return [
    { value: "", label: t("As the language has it") },
    { value: "24", label: t("24 hours") },
    { value: "12", label: t("12 hours") },
  ];
}

/** Weeks begin on these days wherever people live (CLDR, supplemental week data, but for the Maldives' Friday). */
const BEGINNINGS = ["mon", "sat", "sun"] as const;

export function firstDayOptions(): Option<FirstDay>[] {
  const usual = WEEKDAYS[usualFirstDay() - 1] ?? "mon";
  const own = firstDay.value;
  const days = WEEKDAYS.filter((day) => (BEGINNINGS as readonly string[]).includes(day) || day === own);
  return [
    { value: "", label: t("As the language has it: {day}", { day: weekdayName(usual) }) },
    ...days.map((day) => ({ value: day, label: weekdayName(day) })),
  ];
}

export function digitOptions(): Option<Digits>[] {
  const names: Record<Digits, string> = {
    latn: t("Western Arabic"),
    arab: t("Arabic-Indic"),
    arabext: t("Persian"),
    deva: t("Devanagari"),
  };
  return DIGITS.map((system) => ({ value: system, label: digitSigns(system), about: names[system] }));
}

export function lightOptions(): Option<Light>[] {
  return [
    { value: "", label: t("As the device has it") },
    { value: "day", label: t("Day") },
    { value: "night", label: t("Night") },
    { value: "sun", label: t("Full sun") },
  ];
}

export function sizeOptions(): Option<TextSize>[] {
  return [
    { value: "", label: t("As the device has it") },
    { value: "large", label: t("Large") },
    { value: "largest", label: t("Largest") },
  ];
}
