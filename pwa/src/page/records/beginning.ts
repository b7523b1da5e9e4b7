/** With what a new record begins. */

import { tonightDate } from "../night/nights";
import type { SiteRecord } from "../site/document";
import { t } from "../words/catalogue";
import type { Table } from "./fields";
import type { Records } from "./records";
import { todayHere, wallHere } from "./today";

export const NEW = "new";
export const TONIGHT = "tonight";

export function beginning(table: Table, word: string, records: Records, id: string): SiteRecord {
  return { table, id, ...(word === TONIGHT ? closedTonight() : (BEGUN[table]?.(records) ?? {})) };
}

function closedTonight() {
  return {
    name: t("Closed tonight"),
    cause: "event",
    ...spanTonight(tonightDate.value || todayHere.value, wallHere()),
  };
}

const HALF_HOUR_MS = 30 * 60_000;

/** Two hours of tonight, which the reader moves to where they have to be: from nine, or from the next half hour on. */
export function spanTonight(night: string, wall: Date | null): { starts_on: string; ends_on: string } {
  const evening = Date.parse(`${night}T21:00Z`);
  const next = wall ? Math.ceil(wall.getTime() / HALF_HOUR_MS) * HALF_HOUR_MS : evening;
  const from = Math.max(evening, next);
  return { starts_on: momentOf(from), ends_on: momentOf(from + 4 * HALF_HOUR_MS) };
}

const momentOf = (wall: number): string => new Date(wall).toISOString().slice(0, 16);

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
