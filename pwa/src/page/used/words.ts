/** How lines, reasons and nights are said. */

import type { Option } from "../controls/choice";
import type { Used, UsedLine } from "../line/api";
import { t, tn } from "../words/catalogue";
import { numberFormat, wallFormat } from "../words/formats";
import { timeOfDay } from "../words/moments";
import { BY, type By } from "./asking";

const BY_WORDS: Record<By, () => string> = {
  month: () => t("Month"),
  supply: () => t("Supply"),
  program: () => t("Program"),
  hydrozone: () => t("Hydrozone"),
};

export const byWords = (by: By): string => BY_WORDS[by]();
export const byOptions = (): Option<By>[] => BY.map((by) => ({ value: by, label: byWords(by) }));

/** Water asked for outside programs, and stations of no hydrozone, stand under no record. */
const OF_NONE: Record<By, () => string> = {
  month: () => "",
  supply: () => t("No supply"),
  program: () => t("Asked for, in no program"),
  hydrozone: () => t("Stations of no hydrozone"),
};

export function lineName(line: UsedLine, by: By): string {
  if (by === "month") return wallFormat({ month: "long" }).format(middle(line.key));
  return line.name || (line.key ? t("Removed since: {id}", { id: line.key }) : OF_NONE[by]());
}

export function lineMark(line: UsedLine): string {
  return wallFormat({ month: "narrow" }).format(middle(line.key));
}

function middle(month: string): Date {
  return new Date(`${month}-15T12:00:00Z`);
}

/** A moment on the site's clock, as the server tells it. */
export function momentWords(local: string): string {
  const wall = new Date(`${local}Z`);
  return t("{day}, {time}", { day: longDay(wall), time: timeOfDay(wall) });
}

const longDay = (wall: Date): string => wallFormat({ day: "numeric", month: "short", year: "numeric" }).format(wall);

/** Years are not grouped. */
export function yearName(year: number): string {
  return numberFormat({ useGrouping: false }).format(year);
}

const WHY: Record<string, () => string> = {
  power: () => t("No power"),
  shut: () => t("Supply shut"),
  stopped: () => t("Watering stopped"),
  not_opened: () => t("Valve not opened"),
  opened_late: () => t("Valve opened late"),
  closed_early: () => t("Valve closed early"),
  low_flow: () => t("Flow too low"),
};

export const whyWords = (why: string): string => WHY[why]?.() ?? why;

/** How much of it is known at all. */
export function nightsWords({ nights, told }: Used): string {
  if (nights === 0) return t("No night of this year is over and reckoned up yet.");
  if (told === nights)
    return tn("{count} night, told of by its valves.", "{count} nights, told of by their valves.", nights);
  const untold = tn(
    "Nothing was told of {count} night: what was delivered is not known, and its plan is taken to have come.",
    "Nothing was told of {count} nights: what was delivered is not known, and their plan is taken to have come.",
    nights - told,
  );
  return told === 0
    ? untold
    : `${tn("{count} night told of by its valves.", "{count} nights told of by their valves.", told)} ${untold}`;
}
