/** Phones with several tabs on a line that loses, doubles, delays and lies, for property tests: what can happen, and what must hold. */

import { keepIn, takeBackIn } from "../edits/acts";
import { type Reply, type Send, SILENCE } from "../line/line";
import { Database } from "../store/database";
import type { OutboxEdit } from "../store/kept";
import { viewOf } from "../store/laying";
import type { Change } from "../store/shapes";
import { Store } from "../store/store";
import { tidy } from "../store/upkeep";
import type { ModelServer } from "./model-server";
import { type Ending, round } from "./round";

/** What becomes of one call. */
export const DELIVERIES = ["sound", "lost", "reply lost", "doubled", "late", "login page", "busy"] as const;
export type Delivery = (typeof DELIVERIES)[number];

const LOGIN_PAGE: Reply = { status: 200, ours: false, body: null, wait_ms: null };
const BUSY: Reply = { status: 503, ours: true, body: {}, wait_ms: 1000 };

export interface Phone {
  database: Database;
  /** Who is signed in by the cookie; empty: nobody. */
  cookie: string;
  /** Who the app thinks uses it. */
  person: string;
  tabs: Store[];
}

let numbers = 0;

export class History {
  readonly phones: Phone[] = [];
  readonly made = new Map<string, string>();
  private readonly held: (() => void)[] = [];
  private ids = 0;
  private clock_ms = 1_790_000_000_000;
  /** Two phones that are one by their backup: what one of them drops, the other may have sent. */
  private cloned = false;

  constructor(readonly server: ModelServer) {}

  async addPhone(person: string): Promise<void> {
    const database = new Database(`phone ${numbers++}`);
    this.phones.push({ database, cookie: person, person, tabs: [] });
    await this.openTab(this.phones.length - 1);
    await this.sync(this.phones.length - 1, 0, []);
  }

  phone(number: number): Phone {
    const found = this.phones[number % this.phones.length];
    if (!found) throw new Error("no phone");
    return found;
  }

  tab(phone: number, tab: number): Store {
    const { tabs } = this.phone(phone);
    const found = tabs[tab % tabs.length];
    if (!found) throw new Error("no tab");
    return found;
  }

  // What people do --------------------------------------------------------------------------------------------------

  async keep(phone: number, tab: number, changes: Change[]): Promise<string> {
    const store = this.tab(phone, tab);
    if (!store.kept.head) return "";
    const before = new Set((await this.outboxOf(this.phone(phone))).map((edit) => edit.id));
    const act = await keepIn(store, changes, this.means());
    for (const edit of await this.outboxOf(this.phone(phone))) {
      if (!before.has(edit.id)) this.made.set(edit.id, store.owner);
    }
    return act;
  }

  async takeBack(phone: number, tab: number): Promise<void> {
    const store = this.tab(phone, tab);
    const last = store.kept.outbox.filter((edit) => edit.site === store.site).at(-1);
    if (!last || !store.kept.head) return;
    await takeBackIn(store, last.together, this.means());
    for (const edit of await this.outboxOf(this.phone(phone))) {
      if (!this.made.has(edit.id)) this.made.set(edit.id, store.owner);
    }
  }

  /** Somebody else signs in on the phone, or the same person comes back; or, empty, the session runs out. */
  async signIn(phone: number, person: string): Promise<void> {
    const found = this.phone(phone);
    found.cookie = person;
    if (!person || person === found.person) return;
    found.person = person;
    found.tabs = [];
    await this.openTab(phone);
  }

  async openTab(phone: number): Promise<void> {
    const found = this.phone(phone);
    if (found.tabs.length >= 2) return;
    const store = new Store(found.database, found.person, this.server.site, () => Math.floor(this.clock_ms / 1000));
    await store.load();
    found.tabs.push(store);
  }

  /** The app is closed at any moment and opened: it shows what it showed. */
  async reload(phone: number, tab: number): Promise<void> {
    const found = this.phone(phone);
    const closed = this.tab(phone, tab);
    await this.hear(phone);
    const before = JSON.stringify([...viewOf(closed.kept)].sort());
    found.tabs = found.tabs.filter((one) => one !== closed);
    await this.openTab(phone);
    const after = JSON.stringify([...viewOf(this.tab(phone, found.tabs.length - 1).kept)].sort());
    if (before !== after) throw new Error(`a reload shows ${after}, not ${before}`);
  }

  /** A backup of the phone is restored on another: both go on as the same device. */
  async clone(phone: number): Promise<void> {
    if (this.phones.length >= 4) return;
    this.cloned = true;
    const found = this.phone(phone);
    const database = new Database(`phone ${numbers++}`);
    await copyOver(found.database, database);
    this.phones.push({ database, cookie: found.cookie, person: found.person, tabs: [] });
    await this.openTab(this.phones.length - 1);
  }

  async tidy(phone: number): Promise<void> {
    await tidy(this.tab(phone, 0), Math.floor(this.clock_ms / 1000), "");
  }

  /** The tabs of a phone hear of one another. */
  async hear(phone: number): Promise<void> {
    for (const store of this.phone(phone).tabs) await store.load();
  }

  // The line --------------------------------------------------------------------------------------------------------

  async sync(phone: number, tab: number, deliveries: Delivery[], greet = false): Promise<Ending> {
    const store = this.tab(phone, tab);
    const send = this.lineOf(this.phone(phone), [...deliveries]);
    return await round({ store, send, device: null, app_version: "1", greet, heard: () => undefined });
  }

  /** Two tabs speak at the same moment, as where the browser has no locks. */
  async syncBoth(phone: number, deliveries: Delivery[]): Promise<void> {
    await Promise.all(this.phone(phone).tabs.map((_, tab) => this.sync(phone, tab, deliveries)));
  }

  letThrough(): void {
    this.held.shift()?.();
  }

  private lineOf(phone: Phone, deliveries: Delivery[]): Send {
    return async (path, body) => {
      const cookie = phone.cookie || null;
      const deliver = () => this.server.answer(cookie, path, body);
      const delivery = deliveries.shift() ?? "sound";
      if (delivery === "login page") return LOGIN_PAGE;
      if (delivery === "busy") return BUSY;
      if (delivery === "late") this.held.push(deliver);
      if (delivery === "late" || delivery === "lost") return SILENCE;
      if (delivery === "doubled") deliver();
      const reply = deliver();
      return delivery === "reply lost" ? SILENCE : reply;
    };
  }

  private means() {
    this.clock_ms += 1000;
    return { now: () => this.clock_ms, newId: () => `e${this.ids++}` };
  }

  // What must hold --------------------------------------------------------------------------------------------------

  async outboxOf(phone: Phone): Promise<OutboxEdit[]> {
    return await phone.database.read(["outbox"], (tx) => tx.objectStore("outbox").getAll());
  }

  /** Every edit is in exactly one place on each phone that has it, and on one phone at least. */
  async checkPlaces(): Promise<void> {
    const everywhere = new Map<string, number>();
    for (const phone of this.phones) {
      const outbox = await this.outboxOf(phone);
      const answered = await phone.database.read(["answered"], (tx) => tx.objectStore("answered").getAllKeys());
      const here = [...outbox.map((edit) => edit.id), ...answered];
      if (new Set(here).size !== here.length) throw new Error(`an edit is in two places: ${here}`);
      for (const id of here) everywhere.set(id, 1);
      for (const edit of outbox) {
        if (edit.person !== this.made.get(edit.id)) throw new Error(`${edit.id} has changed hands`);
      }
    }
    const lost = [...this.made.keys()].filter((id) => !everywhere.has(id));
    if (lost.length) throw new Error(`nowhere: ${lost}`);
  }

  /** Nothing is lost any more, and everybody comes back to their phone. */
  async comeToRest(): Promise<void> {
    while (this.held.length) this.letThrough();
    for (let number = 0; number < this.phones.length; number++) {
      const phone = this.phone(number);
      const people = new Set((await this.outboxOf(phone)).map((edit) => edit.person)).add(phone.person);
      for (const person of people) {
        await this.signIn(number, person);
        await this.hear(number);
        for (let turn = 0; turn < 4; turn++) await this.sync(number, 0, [], true);
      }
    }
    for (let number = 0; number < this.phones.length; number++) {
      await this.sync(number, 0, [], true);
      await this.hear(number);
    }
  }

  async checkAtRest(): Promise<void> {
    await this.checkPlaces();
    if (this.server.broken.length) throw new Error(this.server.broken.join());
    for (const [id, times] of this.server.applied) {
      if (times !== 1) throw new Error(`${id} changed the document ${times} times`);
    }
    for (const [id, { person }] of this.server.receipts) {
      if (this.made.get(id) !== person) throw new Error(`${id} of ${this.made.get(id)} was sent as ${person}`);
    }
    if (!this.cloned) await this.checkDropped();
    const truth = JSON.stringify([...this.server.document].map(([key, record]) => [key, sorted(record)]).sort());
    for (const phone of this.phones) {
      const outbox = await this.outboxOf(phone);
      const bad = new Set(outbox.filter((edit) => edit.now === "unreadable").map((edit) => edit.set));
      const left = outbox.filter((edit) => !edit.aside || !bad.has(edit.set));
      if (left.length) throw new Error(`unsent: ${JSON.stringify(left)}`);
      if (!this.server.roles.get(phone.person)?.role) continue;
      for (const store of phone.tabs) {
        // What was put aside stays on the screen of whoever made it.
        const bare = { ...store.kept, outbox: store.kept.outbox.filter((edit) => !edit.aside) };
        const shown = [...viewOf(bare)].map(([key, record]) => [key, sorted(record)]);
        const seen = JSON.stringify(shown.sort());
        if (seen !== truth) throw new Error(`${phone.person} sees ${seen}, not ${truth}`);
        if (store.kept.overlaid.length) throw new Error("something is still laid over");
      }
    }
  }

  /** What was folded or thrown away never left its phone. */
  private async checkDropped(): Promise<void> {
    for (const phone of this.phones) {
      const rows = await phone.database.read(["answered"], (tx) => tx.objectStore("answered").getAll());
      const left = rows.filter((row) => row.how !== "answered" && this.server.receipts.has(row.id));
      if (left.length) throw new Error(`${left[0]?.how}, and yet sent: ${left[0]?.id}`);
    }
  }

  async close(): Promise<void> {
    for (const { database } of this.phones) await database.close();
  }
}

function sorted(record: object): object {
  return Object.fromEntries(Object.entries(record).sort(([one], [other]) => (one < other ? -1 : 1)));
}

const ALL = ["about", "heads", "records", "removed", "waiting", "nights", "outbox", "overlaid", "answered"] as const;

async function copyOver(from: Database, to: Database): Promise<void> {
  await to.open();
  for (const name of ALL) {
    const [keys, rows] = await from.read([name], async (tx) => {
      const store = tx.objectStore(name);
      return [await store.getAllKeys(), await store.getAll()] as const;
    });
    await to.write([name], false, async (tx) => {
      const store = tx.objectStore(name);
      for (const [place, row] of rows.entries()) {
        if (store.keyPath === null) await store.put(row as never, keys[place] as never);
        else await store.put(row as never);
      }
    });
  }
}
