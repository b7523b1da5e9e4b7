/** What somebody found at a station: an entry of the journal, which stays, and a repair, which is seen to. */

import { KeepFault } from "../edits/fault";
import { type Kept, keepChanges } from "../edits/keeping";
import type { Found } from "../journal/shapes";
import { tell } from "../journal/telling";
import { todayHere } from "../records/today";
import { newId } from "../store/ids";
import { person } from "../store/queries";
import type { Change } from "../store/shapes";
import { t } from "../words/catalogue";
import { release } from "./photos/taking";
import { foundWords } from "./words";

export const MOST_FOUND = 999;
export const LONGEST_NOTE = 2000;

/** What is being written down. Its ids are made when it begins, so that keeping it twice keeps it once. */
export interface Finding {
  entry: string;
  repair: string;
  found: Found;
  count: number;
  note: string;
  photos: string[];
  /** The repair is kept; the journal has not been told yet. */
  half?: boolean;
}

export function newFinding(found: Found): Finding {
  return { entry: newId(), repair: newId(), found, count: 1, note: "", photos: [] };
}

export function repairOf(finding: Finding, station: string, day: string, by: string): Change {
  const { entry, repair, found, count, note, photos } = finding;
  const told = note.trim();
  const now = {
    station,
    found,
    count,
    found_on: day,
    finding: entry,
    ...(by ? { found_by: by } : {}),
    ...(told ? { notes: told } : {}),
    ...(photos.length ? { photos: photos.join(",") } : {}),
  };
  return { kind: "add", table: "repairs", record: repair, now };
}

/** Both are on this phone when this resolves with `kept`. `half` tells whoever tries again what is kept already. */
export async function keepFinding(finding: Finding, station: string, number: string, half: () => void): Promise<Kept> {
  const { found, count, note, entry, photos } = finding;
  if (!finding.half) {
    const change = repairOf(finding, station, todayHere.value, person.peek()?.name ?? "");
    const kept = await keepChanges([change], () =>
      t("Noted at {station}: {what}.", { station: number, what: foundWords(found, count) }),
    );
    if (kept !== "kept") return kept;
    half();
  }
  if (!(await release(photos))) return "storage";
  try {
    await tell({
      kind: "finding",
      id: entry,
      station,
      finding: found,
      count,
      ...(note.trim() ? { text: note.trim() } : {}),
    });
    return "kept";
  } catch (fault) {
    if (fault instanceof KeepFault) return fault.why;
    throw fault;
  }
}
