/** The phone's database. It reopens when the system has closed it, and no write is waited for longer than it may take. */

import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from "idb";
import type { Alarm } from "../alarms/shapes";
import type { Entry, Followed, ToldRow } from "../journal/shapes";
import type { PhotoRow } from "../wet-check/photos/kept";
import type { Head, KeptNight, OutboxEdit, Overlaid, PulledRecord, Removed } from "./kept";
import type { Answer, Waiting } from "./shapes";

/** Whose copy of which site: the first two parts of nearly every key. */
interface Owned {
  owner: string;
  site: string;
}

/** What became of an edit that has left the outbox. Kept for a while, so that screens can say so. */
export interface AnsweredRow {
  id: string;
  owner: string;
  site: string;
  edit: OutboxEdit;
  /** Null: it never reached the server. */
  answer: Answer | null;
  how: "answered" | "folded" | "discarded";
  by: string;
  at: number;
}

export interface PhoneSchema extends DBSchema {
  about: { key: string; value: unknown };
  heads: { key: [string, string]; value: Owned & { head: Head } };
  records: { key: [string, string, string]; value: Owned & { key: string } & PulledRecord };
  removed: { key: [string, string, string]; value: Owned & { key: string } & Removed };
  waiting: { key: [string, string, string]; value: Owned & { id: string; waiting: Waiting } };
  nights: { key: [string, string, string]; value: Owned & KeptNight };
  outbox: { key: number; value: OutboxEdit; indexes: { id: string } };
  overlaid: { key: string; value: Overlaid };
  answered: { key: string; value: AnsweredRow; indexes: { at: number } };
  told: { key: number; value: ToldRow; indexes: { id: string } };
  entries: { key: [string, string, number]; value: Owned & Entry };
  alarms: { key: [string, string, string]; value: Owned & { id: string; alarm: Alarm } };
  followed: { key: [string, string]; value: Owned & { followed: Followed } };
  photos: { key: string; value: PhotoRow; indexes: { state: [string, string, string] } };
}

export type Stores = StoreNames<PhoneSchema>;
export type Reading = IDBPTransaction<PhoneSchema, Stores[], "readonly">;
export type Writing = IDBPTransaction<PhoneSchema, Stores[], "readwrite">;
type Open = IDBPDatabase<PhoneSchema>;
type Upgrading = IDBPTransaction<PhoneSchema, Stores[], "versionchange">;

/** The phone would not keep it, or not say in time that it had. */
export class StorageFault extends Error {
  constructor(readonly why: "refused" | "late" | "newer") {
    super(why);
  }
}

const PATIENCE_MS = 10_000;

/** From nothing to today's database, one step a version; a step that was once released never changes. */
export const STEPS: readonly ((db: Open, tx: Upgrading) => void)[] = [first, second, third, fourth];
const VERSION = STEPS.length;

function first(db: Open): void {
  db.createObjectStore("about");
  db.createObjectStore("heads", { keyPath: ["owner", "site"] });
  db.createObjectStore("records", { keyPath: ["owner", "site", "key"] });
  db.createObjectStore("removed", { keyPath: ["owner", "site", "key"] });
  db.createObjectStore("waiting", { keyPath: ["owner", "site", "id"] });
  db.createObjectStore("nights", { keyPath: ["owner", "site", "night"] });
  db.createObjectStore("outbox", { keyPath: "place", autoIncrement: true }).createIndex("id", "id", { unique: true });
  db.createObjectStore("overlaid", { keyPath: "id" });
  db.createObjectStore("answered", { keyPath: "id" }).createIndex("at", "at");
}

/** What happens at night, and what people tell of it. */
function second(db: Open): void {
  db.createObjectStore("told", { keyPath: "place", autoIncrement: true }).createIndex("id", "id", { unique: true });
  db.createObjectStore("entries", { keyPath: ["owner", "site", "number"] });
  db.createObjectStore("alarms", { keyPath: ["owner", "site", "id"] });
  db.createObjectStore("followed", { keyPath: ["owner", "site"] });
}

/** Photos of a walk, until the server has them. */
function third(db: Open): void {
  db.createObjectStore("photos", { keyPath: "id" });
}

/** How a photo stands is in an index: it is counted without its bytes. */
function fourth(_db: Open, tx: Upgrading): void {
  tx.objectStore("photos").createIndex("state", ["person", "site", "state"]);
  // Where it fails, the upgrade does, and whoever opens is told by that.
  withStates(tx).catch(() => undefined);
}

async function withStates(tx: Upgrading): Promise<void> {
  for (let at = await tx.objectStore("photos").openCursor(); at; at = await at.continue()) {
    const { held, sent, ...row } = at.value as PhotoRow & { held?: boolean; sent?: boolean };
    const state = held ? "held" : sent ? "sent" : row.fault === null ? "waits" : "refused";
    await at.update({ ...row, state });
  }
}

interface Bounded {
  readonly done: Promise<void>;
  abort(): void;
}

export class Database {
  private opening: Promise<Open> | null = null;

  constructor(
    readonly name = "pengan",
    private readonly patienceMs = PATIENCE_MS,
    private readonly version = VERSION,
  ) {}

  /** Raises `StorageFault` where the browser keeps nothing, or holds what a newer app wrote. */
  async open(): Promise<void> {
    await this.opened();
  }

  async read<Result>(stores: Stores[], work: (tx: Reading) => Promise<Result>): Promise<Result> {
    const tx = await this.begun((db) => db.transaction(stores, "readonly"));
    return await this.bounded(tx, work(tx));
  }

  /** Everything that `work` writes is kept, or nothing is. `strict`: it is on the disk before this resolves. */
  async write<Result>(stores: Stores[], strict: boolean, work: (tx: Writing) => Promise<Result>): Promise<Result> {
    const durability = strict ? "strict" : "relaxed";
    const tx = await this.begun((db) => db.transaction(stores, "readwrite", { durability }));
    return await this.bounded(tx, whole(tx, work));
  }

  async close(): Promise<void> {
    const db = await this.opening?.catch(() => null);
    this.opening = null;
    db?.close();
  }

  /** A connection that the system closed meanwhile is opened anew, once. */
  private async begun<Begun>(begin: (db: Open) => Begun): Promise<Begun> {
    try {
      return begin(await this.opened());
    } catch (fault) {
      if (fault instanceof StorageFault) throw fault;
      this.opening = null;
    }
    try {
      return begin(await this.opened());
    } catch (fault) {
      throw asFault(fault);
    }
  }

  private async opened(): Promise<Open> {
    try {
      this.opening ??= this.openNow();
      return await inTime(this.opening, this.patienceMs);
    } catch (fault) {
      this.opening = null;
      throw asFault(fault);
    }
  }

  private openNow(): Promise<Open> {
    const forget = () => {
      this.opening = null;
    };
    const opening = openDB<PhoneSchema>(this.name, this.version, {
      upgrade: (db, from, _to, tx) => {
        for (const step of STEPS.slice(from, this.version)) step(db, tx);
      },
      // Another tab has a newer app: let go, so that it can bring the database up to date.
      blocking: () => {
        void opening.then((db) => db.close());
        forget();
      },
      terminated: forget,
    });
    return opening;
  }

  private async bounded<Result>(tx: Bounded, result: Promise<Result>): Promise<Result> {
    // Whatever goes wrong with it is told by the result; nobody else waits for its end.
    tx.done.catch(() => undefined);
    try {
      return await inTime(result, this.patienceMs);
    } catch (fault) {
      abandon(tx);
      if (fault instanceof StorageFault || fault instanceof DOMException) throw asFault(fault);
      throw fault;
    }
  }
}

async function whole<Result>(tx: Writing, work: (tx: Writing) => Promise<Result>): Promise<Result> {
  const result = await work(tx);
  await tx.done;
  return result;
}

function abandon(tx: Bounded): void {
  try {
    tx.abort();
  } catch {
    // It is over already: there is nothing left to take back.
  }
}

async function inTime<Result>(promise: Promise<Result>, patienceMs: number): Promise<Result> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new StorageFault("late")), patienceMs);
  });
  try {
    return await Promise.race([promise, late]);
  } finally {
    clearTimeout(timer);
  }
}

function asFault(fault: unknown): StorageFault {
  if (fault instanceof StorageFault) return fault;
  return new StorageFault((fault as Error | null)?.name === "VersionError" ? "newer" : "refused");
}

/** All rows of one owner's site. */
export function rangeOf(owner: string, site: string): IDBKeyRange {
  return IDBKeyRange.bound([owner, site], [owner, site, []]);
}
