/** The shapes of what a phone keeps of a site. They follow the sync protocol; see DEVELOPERS.md, "Sync". */

import type { SiteRecord } from "../site/document";

export type Role = "manager" | "lead" | "crew";
export type EditKind = "set" | "add" | "remove" | "restore" | "settle";

/** What a person does to one record: the value is absolute. `field` names a field or a field group. */
export type Change =
  | { kind: "set"; table: string; record: string; field: string; now: unknown }
  | { kind: "add"; table: string; record: string; now: Record<string, unknown> }
  | { kind: "remove" | "restore"; table: string; record: string }
  | { kind: "settle"; table: string; record: string; field: string; now: unknown; settles: string };

/** A change as the outbox keeps it. `seen` is a version, or the id of one's own earlier edit of that field. */
export interface Edit {
  id: string;
  set: string;
  site: string;
  /** Whose outbox it is in: it is never sent as anybody else. */
  person: string;
  kind: EditKind;
  table: string;
  record: string;
  field: string | null;
  seen: unknown;
  was: unknown;
  now: unknown;
  format: number;
  phone_time: string;
  settles: string | null;
  /** Its answer may be on its way: it is kept as it is until the answer comes. */
  sent: boolean;
  /** The server could not read it, and will not however often it is sent: it waits for a newer app. */
  aside?: { status: number; detail: string } | undefined;
  /** The act it belongs to: an act of many edits goes out as several sets. `takeBack` takes the whole act back. */
  together?: string;
  /** What the screen showed of the field when the edit was made. */
  before?: unknown;
}

export type Outcome = "taken" | "agreed" | "disputed" | "removed" | "refused" | "held" | "parked";

/** What the server said of an edit. Which further fields there are depends on the outcome. */
export interface Answer {
  id: string;
  set: string;
  outcome: Outcome;
  version?: number | null;
  revision?: number | null;
  theirs?: unknown;
  by?: string | null;
  by_name?: string | null;
  when?: number | null;
  code?: string;
  params?: Record<string, unknown>;
  detail?: string;
  faults?: {
    table: string | null;
    record: string | null;
    field: string | null;
    code: string;
    params: Record<string, unknown>;
  }[];
  why?: string;
  with?: string[];
  beside?: { field: string; by: string | null; by_name: string | null; when: number | null }[];
}

/** An edit that is not in force, and waits for somebody to decide. */
export interface Waiting {
  tray: Exclude<Outcome, "taken" | "agreed">;
  open: boolean;
  /** As in the history: with `person`, `at`, `before`, `now`, `phone_time`, `device`. */
  edit: Record<string, unknown> & { id: string; set: string; table: string; record: string; field: string | null };
  answer: Answer;
  closed_how: string | null;
  closed_by: string | null;
  closed_at: number | null;
  /** What each side would do to tonight, once the server has worked it out. */
  effect: Record<string, unknown> | null;
}

/** The site as this phone shows it. */
export interface SiteCopy {
  site: string;
  /** The server's records with the outbox laid over them, in the document's order. */
  records: SiteRecord[];
  format: number;
  /** The document's revision the server's part is of; 0 before the first pull. */
  revision: number;
  role: Role | null;
  /** Names of people the copy speaks of, by id. */
  people: Record<string, string>;
}

/** How the line to the server is. Times are whole seconds since 1970 by the phone's clock. */
export interface LineState {
  /** `in_step`: nothing unsent and the server answered last time. */
  now: "in_step" | "sending" | "no_signal" | "signed_out" | "update_needed" | "starting";
  /** When the server last answered; null: never on this phone. */
  spoke: number | null;
  /** Since when it has not. */
  silent_since: number | null;
}

/** Who uses this phone. */
export interface Person {
  id: string;
  name: string;
  device: string;
  sites: { site: string; role: Role }[];
}

/** What was asked of the browser, and what it said: whether what is kept here stays. */
export type Keeping = "persistent" | "at_risk" | "asking" | "unknown";

/** One's own edit and what became of it. `answer` is null where it never left this phone. */
export interface OwnEdit {
  edit: Edit;
  answer: Answer | null;
  how: "answered" | "folded" | "discarded";
  /** Whole seconds since 1970 by the phone's clock. */
  at: number;
}

/** News: somebody else changed other fields of a record that one has just edited. */
export interface Beside {
  edit: Edit;
  fields: { field: string; by: string | null; by_name: string | null; when: number | null }[];
}

/** How much waits on this phone for the server: edits, entries of journals, photos, and accepted rests of a night. */
export interface Counts {
  edits: number;
  entries: number;
  photos: number;
  rests: number;
}

/** What somebody else has on this phone that was not sent. */
export interface Others {
  person: string;
  name: string;
  count: number;
}
