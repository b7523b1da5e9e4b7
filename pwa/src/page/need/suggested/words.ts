/** A program's limits and its suggestion in words. */

import { t } from "../../words/catalogue";
import { figure } from "../../words/figures";
import type { Limits, Suggestion } from "./suggestions";

export const pct = (value: number): string => t("{figure} %", { figure: figure(value, 0) });

export function limitWords(limits: Limits): string {
  const span = { least: pct(limits.seasonal_least_pct), most: pct(limits.seasonal_most_pct) };
  return t("Between {least} and {most}.", span);
}

export function byItselfWords(limits: Limits): string {
  const most = limits.seasonal_by_itself_pct;
  if (most === 0) return t("A person takes each.");
  return t("Taken by itself up to {percent} off.", { percent: pct(most) });
}

/** What is to be known of this suggestion besides its figures; empty where there is nothing. */
export function noteOf({ message, to_pct, by_itself }: Suggestion): string {
  const { need_pct } = message.params;
  if (message.code === "seasonal.limited" && typeof need_pct === "number") {
    return t("Its limit is {limit}; need alone would say {need}.", { limit: pct(to_pct), need: pct(need_pct) });
  }
  return by_itself ? t("At noon it is taken by itself.") : "";
}
