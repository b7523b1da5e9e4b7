/** With what a new record begins. */

import { tonightDate } from "../night/nights";
import type { SiteRecord } from "../site/document";
import { t } from "../words/catalogue";
import type { Table } from "./fields";
import type { Records } from "./records";
import { todayHere } from "./today";

export const NEW = "new";
export const TONIGHT = "tonight";

export function beginning(table: Table, word: string, records: Records, id: string): SiteRecord {
  return { table, id, ...(word === TONIGHT ? closedTonight() : (BEGUN[table]?.(records) ?? {})) };
}

/** A closure of tonight's late evening, which the reader moves to where it has to be. */
function closedTonight() {
  const night = tonightDate.value || todayHere.value;
  return { name: t("Closed tonight"), cause: "event", starts_on: `${night}T21:00`, ends_on: `${night}T23:00` };
}

const BEGUN: Partial<Record<Table, (records: Records) => Record<string, unknown>>> = {
  windows: () => ({ opens: "21:00", closes: "06:00" }),
  closures: () => ({ starts_on: `${todayHere.value}T21:00`, ends_on: `${todayHere.value}T23:00` }),
  programs: (records) => ({ letter: freeLetter(records) }),
};

/** The first letter that no program has; none where all are taken. */
function freeLetter(records: Records): string {
  const taken = new Set(records.of("programs").map((program) => program.letter));
  return [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"].find((letter) => !taken.has(letter)) ?? "";
}
