/** What a night's row says under its silhouette: whole sentences, the unusual alone. */

import { shortVolume } from "../night/moments";
import { closedName, timeAt } from "../night/reading";
import type { ClosedSpan } from "../night/sheet";
import { t, tn } from "../words/catalogue";
import { volume } from "../words/units";
import { type AheadNight, closedInFree, reach } from "./almanac";

/** So many closures are named in a row; the others stand in the night's own panel. */
const NAMED = 2;

export interface Note {
  key: string;
  text: string;
  /** Something does not fit. */
  short?: boolean;
}

export function notesOf(night: AheadNight, usual: ReadonlySet<string>): Note[] {
  const { sheet, clock } = night;
  const notes: Note[] = clock.changes.map((change) => ({
    key: `clock ${change.at}`,
    text: change.after_s < change.before_s ? t("The clock goes back.") : t("The clock goes forward."),
  }));
  if (sheet.volume_due_l === 0 && sheet.runs.length === 0 && sheet.shortfalls.length === 0)
    notes.push({ key: "none", text: t("No turn is due.") });
  notes.push(...closureNotes(night, usual));
  if (sheet.shortfalls.length > 0) notes.push(shortNote(night));
  if (night.behind) notes.push({ key: "behind", text: t("The latest edits are not counted yet.") });
  return notes;
}

function closureNotes(night: AheadNight, usual: ReadonlySet<string>): Note[] {
  const unusual = closedInFree(night.sheet).filter((span) => span.closure && !usual.has(span.closure));
  const named = unusual.slice(0, NAMED).map((span) => ({
    key: `${span.closure} ${span.start}`,
    text: closureLine(night, span),
  }));
  const rest = unusual.length - named.length;
  if (rest > 0) named.push({ key: "more", text: tn("{count} closure more", "{count} closures more", rest) });
  return named;
}

/** "Mowing the pitches, from 05:15": where in the open hours a closure lies. */
export function closureLine(night: AheadNight, span: ClosedSpan): string {
  const closure = closedName(night.document, span);
  const [start, end] = [timeAt(night.clock, span.start), timeAt(night.clock, span.end)];
  const lies = reach(span, night.sheet);
  if (lies === "all") return t("{closure}, all night", { closure });
  if (lies === "until") return t("{closure}, until {end}", { closure, end });
  if (lies === "from") return t("{closure}, from {start}", { closure, start });
  return t("{closure}, {start}–{end}", { closure, start, end });
}

function shortNote({ sheet }: AheadNight): Note {
  return {
    key: "short",
    short: true,
    text: t("{volume} short", { volume: volume(shortVolume(sheet.shortfalls)) }),
  };
}
