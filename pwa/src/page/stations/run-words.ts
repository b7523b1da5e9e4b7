/** A run time as it stands in large type, and the names of its steps. */

import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { figure } from "../words/figures";
import { shortDay } from "../words/moments";

/** Minutes alone where there are no seconds: the unit stands behind them. */
export function minutesText(seconds: number): string {
  return seconds % 60 === 0 ? figure(seconds / 60, 0) : duration(seconds);
}

export function minutesUnit(seconds: number): string | undefined {
  return seconds % 60 === 0 ? t("min") : undefined;
}

/** As the large figure says it: in minutes, however many, where there are no seconds. */
export function runWords(seconds: number): string {
  return seconds % 60 === 0 ? t("{minutes} min", { minutes: figure(seconds / 60, 0) }) : duration(seconds);
}

export function stepName(by: number): string {
  return by > 0
    ? tn("{count} minute more", "{count} minutes more", by)
    : tn("{count} minute less", "{count} minutes less", -by);
}

export function effectTitle(night: string, tonight: boolean, run: string): string {
  return tonight ? t("Tonight with {run}", { run }) : t("{date} with {run}", { date: shortDay(night), run });
}
