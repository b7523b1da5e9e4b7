/** What the programs' percentages should be: the answer of engine and server, and what may be done with it. */

import type { SiteDocument } from "../../site/document";
import { pctOf } from "../../stations/seasonal";
import type { Change } from "../../store/shapes";
import type { Message } from "../../words/say";

export interface Suggestion {
  program: string;
  from_pct: number;
  to_pct: number;
  /** The program takes it without a person, at the next noon. */
  by_itself: boolean;
  message: Message;
}

export interface Suggestions {
  night: string;
  suggestions: Suggestion[];
  /** Why nothing can be said of other programs. */
  messages: Message[];
}

/** Need of the last days and of the peak, in mm a day. */
export interface Need {
  recent_mm: number;
  peak_mm: number;
}

/** Those that still fit: a percentage that somebody has changed since is no longer the one they speak of. */
export function standing(found: Suggestions, document: SiteDocument): Suggestion[] {
  return found.suggestions.filter(
    ({ program, from_pct }) => document.programs.has(program) && pctOf(document, "programs", program) === from_pct,
  );
}

/** One set for all of them. */
export function changesFor(chosen: readonly Suggestion[]): Change[] {
  return chosen.map(({ program, to_pct }) => ({
    kind: "set",
    table: "programs",
    record: program,
    field: "seasonal_pct",
    now: to_pct,
  }));
}

/** It is the same for all programs; null where no suggestion tells it. */
export function needIn(found: Suggestions): Need | null {
  for (const { message } of found.suggestions) {
    const { recent_mm, peak_mm } = message.params;
    if (typeof recent_mm === "number" && typeof peak_mm === "number") return { recent_mm, peak_mm };
  }
  return null;
}

/** Programs by why nothing can be suggested for them: each reason once. */
export function withoutByReason(found: Suggestions): Map<string, { message: Message; programs: string[] }> {
  const reasons = new Map<string, { message: Message; programs: string[] }>();
  for (const message of found.messages) {
    const known = reasons.get(message.code) ?? { message, programs: [] };
    known.programs.push(String(message.params.program ?? ""));
    reasons.set(message.code, known);
  }
  return reasons;
}

/** Programs whose percentage is right as it stands: neither to be changed, nor unknown, and with turns set by hand. */
export function rightAsTheyStand(found: Suggestions, document: SiteDocument): string[] {
  const other = new Set([
    ...found.suggestions.map(({ program }) => program),
    ...found.messages.map(({ params }) => String(params.program ?? "")),
  ]);
  return withTurnsByHand(document).filter((id) => !other.has(id));
}

/** The programs that a percentage means anything to: their run times are not worked out night by night. */
export function withTurnsByHand(document: SiteDocument): string[] {
  const byHand = new Set(document.all("turns").flatMap((turn) => (turn.mode === "need" ? [] : [String(turn.program)])));
  return [...document.programs.keys()].filter((id) => byHand.has(id));
}

export interface Limits {
  seasonal_least_pct: number;
  seasonal_most_pct: number;
  seasonal_by_itself_pct: number;
}

export type Limit = keyof Limits;

/** As the document has them where a program says nothing else. */
const USUAL: Limits = { seasonal_least_pct: 0, seasonal_most_pct: 150, seasonal_by_itself_pct: 0 };
export const LIMITS = Object.keys(USUAL) as Limit[];

export function limitsOf(document: SiteDocument, program: string): Limits {
  const record = document.record("programs", program);
  const value = (name: Limit) => (typeof record?.[name] === "number" ? record[name] : USUAL[name]);
  return {
    seasonal_least_pct: value("seasonal_least_pct"),
    seasonal_most_pct: value("seasonal_most_pct"),
    seasonal_by_itself_pct: value("seasonal_by_itself_pct"),
  };
}

/** Only what differs; a limit that is the usual one is stored as nothing. */
export function limitChanges(program: string, was: Limits, now: Limits): Change[] {
  return LIMITS.filter((name) => was[name] !== now[name]).map((field) => ({
    kind: "set",
    table: "programs",
    record: program,
    field,
    now: now[field] === USUAL[field] ? null : now[field],
  }));
}
