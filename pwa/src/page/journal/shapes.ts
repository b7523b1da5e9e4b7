/** What happens at a site as the phone keeps it: entries of the journal, and what its person tells and has not sent yet. */

import type { Explained, Sentence } from "../alarms/shapes";

export const KINDS = [
  "opened",
  "closed",
  "flow",
  "count",
  "power_lost",
  "power_back",
  "shut",
  "freed",
  "stopped",
  "lifted",
  "alive",
  "alarm_opened",
  "alarm_seen",
  "alarm_explained",
  "alarm_ended",
  "note",
  "finding",
  "replaced",
] as const;
export type Kind = (typeof KINDS)[number];

export const FOUND = ["head", "tilt", "leak", "pressure", "wire", "valve", "clogged", "blocked", "other"] as const;
export type Found = (typeof FOUND)[number];

/** What an entry is about, and what it says. Flows are in litres a minute, counts in litres. */
export interface Said {
  kind: Kind;
  station?: string;
  supply?: string;
  controller?: string;
  flow_lpm?: number;
  count_l?: number;
  alarm?: string;
  finding?: Found;
  count?: number;
  /** What an alarm was; left out, something else. */
  explained?: Explained;
  text?: string;
}

/** An entry as it is told. `at`: whole seconds since 1970, when it happened. */
export interface Told extends Said {
  id: string;
  at: number;
}

/** An entry as the server has it: `number` orders them by arrival. `by` is `person:<id>`, `reporter:<id>` or `server`. */
export interface Entry extends Told {
  number: number;
  arrived_at: number;
  by: string;
  /** What the server itself says here; `text` has it in its own language. */
  said?: Sentence;
}

/** What is wrong with an entry, in the language in which it was answered. */
export interface EntryFault {
  field: string | null;
  code: string;
  detail: string;
}

/** An entry in the outbox. `person`: whose it is; nobody else sends it. `taken`: the server has it, and this phone's copy
 * will have it with the next answer. `faults`: it was kept aside, or turned away, and waits for its person. */
export interface ToldRow {
  place: number;
  id: string;
  person: string;
  site: string;
  entry: Told;
  kept_at: number;
  taken: boolean;
  faults: EntryFault[] | null;
}

/** How far this phone has followed a site's journal and alarms. Counts of the server; instants by its clock. */
export interface Followed {
  /** The newest entry's number; null: none was asked for yet. */
  entries: number | null;
  /** Who told what, by `by`. */
  names: Record<string, string>;
  /** The count of the alarms' changes. */
  alarms: number;
  people: Record<string, string>;
  caution: Sentence | null;
  /** When the alarms were last told of; 0: never. */
  as_of: number;
}

export const NOTHING_FOLLOWED: Followed = {
  entries: null,
  names: {},
  alarms: 0,
  people: {},
  caution: null,
  as_of: 0,
};
