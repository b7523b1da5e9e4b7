/** Alarms as the server tells of them, and as the phone keeps them. */

import type { Message } from "../words/say";

export const EXPLAINED = ["fault", "work", "other_water", "meter", "nothing", "other"] as const;
export type Explained = (typeof EXPLAINED)[number];

/** What is said, and the server's own sentence of it, for a page that does not know what is said. */
export interface Sentence extends Message {
  detail: string;
}

/** Who may be behind an alarm. `sure` is from 0 to 1. */
export interface Culprit {
  cause: string;
  sure: number;
  size_lpm: number;
  station: string | null;
  supply: string | null;
  controller: string | null;
  said: Sentence;
}

/** One fault that was noticed. Instants are whole seconds since 1970. */
export interface Alarm {
  id: string;
  change: number;
  night: string;
  last_night: string;
  kind: string;
  gravity: "minor" | "serious" | "grave";
  supply: string | null;
  controller: string | null;
  station: string | null;
  size_lpm: number;
  lost_l: number;
  since: number;
  opened_at: number;
  spells: (number | null)[][];
  said: Sentence;
  culprits: Culprit[];
  trial: { stations: string[]; said: Sentence | null };
  seen: { person: string; at: number }[];
  explained: { kind: Explained; text: string; by: string | null; at: number } | null;
  ended: { at: number; by: string; why: Sentence } | null;
}

export interface AlarmPage {
  alarms: Alarm[];
  names: Record<string, string>;
  next: string | null;
  newest: number;
  caution: Sentence;
}
