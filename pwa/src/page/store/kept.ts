/** What a phone keeps of one site for one person: the server's copy, and its own edits that the copy has not got yet. */

import type { NightSheet } from "../night/sheet";
import type { ClockData } from "../site/clock";
import type { SiteRecord } from "../site/document";
import type { Edit, Role, Waiting } from "./shapes";

/** A record as the server has it, the versions of its fields (those at 1 are left out), its place in the document. */
export interface PulledRecord {
  record: SiteRecord;
  versions: Record<string, number>;
  order: number;
}

/** A record that is no longer there, as the server tells of it. */
export interface Removal {
  table: string;
  id: string;
  version: number;
  by?: string | null;
  when?: number | null;
}

/** The same, with what the phone had of it, and the versions it knew: who removes it again has seen these. */
export interface Removed extends Removal {
  last: SiteRecord | null;
  versions?: Record<string, number>;
}

/** Where the copy stands. `planned`: the revision whose nights ahead are all worked out; `sheets`: their own cursor. */
export interface Head {
  cursor: number;
  scope: string;
  revision: number;
  format: number;
  role: Role | null;
  people: Record<string, string>;
  sheets: number;
  planned: number;
  tonight: string;
}

/** A night as it came. `good_for` is the revision for which it was asked; 0: it came ahead, and `planned` says.
 * `accepted`: it is no more than the rest that was accepted here under this id, until the server's own comes. */
export interface KeptNight {
  night: string;
  sheet: NightSheet;
  clock: ClockData;
  good_for: number;
  accepted?: string;
}

/** An edit in the outbox. `place` orders all of them; `together` names the act; `before` is what stood on the screen. */
export interface OutboxEdit extends Edit {
  place: number;
  together: string;
  before: unknown;
  cursor: number | null;
  kept_at: number;
}

/** An answered edit that the copy has not got yet. */
export interface Overlaid extends OutboxEdit {
  revision: number;
  version?: number | null;
}

export interface Kept {
  /** Whose copy it is; empty: of somebody who is not signed in. */
  owner: string;
  site: string;
  head: Head | null;
  records: ReadonlyMap<string, PulledRecord>;
  removed: ReadonlyMap<string, Removed>;
  waiting: ReadonlyMap<string, Waiting>;
  /** The person's own edits, at whichever site, in the order of their making. */
  outbox: readonly OutboxEdit[];
  overlaid: readonly Overlaid[];
  nights: ReadonlyMap<string, KeptNight>;
}

export function nothingKept(owner: string, site: string): Kept {
  return {
    owner,
    site,
    head: null,
    records: new Map(),
    removed: new Map(),
    waiting: new Map(),
    outbox: [],
    overlaid: [],
    nights: new Map(),
  };
}

/** Where a record belongs: `table/id`. */
export function keyOf(table: string, id: string): string {
  return `${table}/${id}`;
}
