/** The page's own client against a real server, on a line that loses, doubles, delays and lies. Driven by Python. */

import "fake-indexeddb/auto";
import { keepIn, takeBackIn } from "../../pwa/src/page/edits/acts";
import { lineTo, type Reply, type Send, SILENCE } from "../../pwa/src/page/line/line";
import { Database } from "../../pwa/src/page/store/database";
import { newId } from "../../pwa/src/page/store/ids";
import type { OutboxEdit } from "../../pwa/src/page/store/kept";
import { viewOf } from "../../pwa/src/page/store/laying";
import type { Change } from "../../pwa/src/page/store/shapes";
import { Store } from "../../pwa/src/page/store/store";
import { round } from "../../pwa/src/page/sync/round";

interface Member {
  person: string;
  token: string;
}

/** What Python hands over: where the server is, and for each history its site, its phones and the seed of its chance. */
interface Given {
  base: string;
  steps: number;
  histories: { site: string; phones: Member[]; seed: number }[];
  /** Table, field, records, values. */
  fields: [string, string, string[], unknown[]][];
  removable: [string, string][];
  bad: [string, string, string, unknown][];
}

const KINDS = ["sound", "sound", "sound", "lost", "reply lost", "doubled", "late", "login page"] as const;
const LOGIN_PAGE: Reply = { status: 200, ours: false, body: null, wait_ms: null };

/** Whose cookie goes along: a browser would see to that. */
let token = "";
const plain = globalThis.fetch;
globalThis.fetch = (input, init) =>
  plain(input, { ...init, headers: { ...(init?.headers as Record<string, string>), Cookie: `pengan=${token}` } });

class Phone {
  tabs: Store[] = [];
  readonly made = new Map<string, OutboxEdit>();

  constructor(
    readonly member: Member,
    readonly site: string,
    readonly database: Database,
  ) {}

  async openTab(): Promise<void> {
    const store = new Store(this.database, this.member.person, this.site);
    await store.load();
    this.tabs.push(store);
  }

  tab(number: number): Store {
    return this.tabs[number % this.tabs.length] as Store;
  }

  async outbox(): Promise<OutboxEdit[]> {
    return await this.database.read(["outbox"], (tx) => tx.objectStore("outbox").getAll());
  }
}

class History {
  readonly phones: Phone[] = [];
  readonly arrived = new Set<string>();
  readonly reloads: string[] = [];
  private readonly late: (() => Promise<unknown>)[] = [];
  private readonly line: Send;

  constructor(
    private readonly given: Given,
    private readonly of: Given["histories"][number],
    private readonly chance: (below: number) => number,
  ) {
    this.line = lineTo(given.base, () => "en");
  }

  async begin(): Promise<void> {
    for (const [place, member] of this.of.phones.entries()) {
      const phone = new Phone(member, this.of.site, new Database(`${this.of.site} ${place}`));
      await phone.openTab();
      this.phones.push(phone);
      await this.sync(phone, phone.tab(0), []);
    }
  }

  async step(): Promise<void> {
    const phone = this.one(this.phones);
    const store = phone.tab(this.chance(2));
    const what = this.chance(16);
    if (what < 5) await this.keep(phone, store, [this.change()]);
    else if (what === 5) await this.keep(phone, store, [this.change(), this.change(), this.change()]);
    else if (what === 6) await this.keep(phone, store, this.removal(store));
    else if (what === 7) await this.keep(phone, store, this.addition());
    else if (what === 8) await this.keep(phone, store, this.settling(store));
    else if (what === 9) await this.keep(phone, store, [this.badChange()]);
    else if (what === 10) await this.takeBack(phone, store);
    else if (what === 11) await this.reload(phone);
    else if (what === 12) await this.late.shift()?.();
    else await this.sync(phone, store, [this.one(KINDS), this.one(KINDS), this.one(KINDS)]);
  }

  private one<Item>(items: readonly Item[]): Item {
    return items[this.chance(items.length)] as Item;
  }

  private change(): Change {
    const [table, field, records, values] = this.one(this.given.fields);
    const record = this.one(records).replace("{site}", this.of.site);
    return { kind: "set", table, record, field, now: this.one(values) };
  }

  private badChange(): Change {
    const [table, record, field, now] = this.one(this.given.bad);
    return { kind: "set", table, record: record.replace("{site}", this.of.site), field, now };
  }

  private removal(store: Store): Change[] {
    const [removed] = store.kept.removed.values();
    if (removed && this.chance(2)) return [{ kind: "restore", table: removed.table, record: removed.id }];
    const [table, record] = this.one(this.given.removable);
    return [{ kind: "remove", table, record }];
  }

  private addition(): Change[] {
    const at = { table: "closures", record: newId() };
    const now = { name: "Mown", starts: "22:00", ends: "23:00", cause: "mowing" };
    const added: Change = { kind: "add", ...at, now };
    return this.chance(2) ? [added, { kind: "set", ...at, field: "cause", now: "event" }] : [added];
  }

  private settling(store: Store): Change[] {
    const waits = [...store.kept.waiting.values()].find((one) => one.open && one.tray === "disputed");
    if (!waits) return [];
    const { kind, table, record } = waits.edit as unknown as OutboxEdit;
    const field = kind === "remove" || kind === "restore" ? "removed" : (waits.edit.field ?? "");
    const mine = field === "removed" ? kind === "remove" : waits.edit.now;
    const now = this.chance(2) ? mine : (waits.answer.theirs ?? null);
    if (field === "removed" && typeof now !== "boolean") return [];
    return [{ kind: "settle", table, record, field, now, settles: waits.edit.id }];
  }

  private async keep(phone: Phone, store: Store, changes: Change[]): Promise<void> {
    if (changes.length) await keepIn(store, changes);
    await this.note(phone);
  }

  private async takeBack(phone: Phone, store: Store): Promise<void> {
    const last = store.kept.outbox.at(-1);
    if (last) await takeBackIn(store, last.together);
    await this.note(phone);
  }

  private async note(phone: Phone): Promise<void> {
    for (const edit of await phone.outbox()) phone.made.set(edit.id, edit);
  }

  private async reload(phone: Phone): Promise<void> {
    for (const store of phone.tabs) await store.load();
    const before = viewText(phone.tab(0));
    phone.tabs.pop();
    await phone.openTab();
    if (phone.tabs.length < 2) await phone.openTab();
    const after = viewText(phone.tab(phone.tabs.length - 1));
    if (before !== after) this.reloads.push(`${before} became ${after}`);
  }

  private async sync(phone: Phone, store: Store, deliveries: string[]): Promise<string> {
    const send = this.through(phone, deliveries);
    const ending = await round({ store, send, device: null, app_version: "1", greet: false, heard: () => undefined });
    return ending.how;
  }

  private through(phone: Phone, deliveries: string[]): Send {
    return async (path, body) => {
      const deliver = async () => {
        token = phone.member.token;
        if (path.endsWith("push")) this.noteArrival(body as { sets: { edits: { id: string }[] }[] });
        return await this.line(path, body);
      };
      const delivery = deliveries.shift() ?? "sound";
      if (delivery === "login page") return LOGIN_PAGE;
      if (delivery === "late") this.late.push(deliver);
      if (delivery === "late" || delivery === "lost") return SILENCE;
      if (delivery === "doubled") await deliver();
      const reply = await deliver();
      return delivery === "reply lost" ? SILENCE : reply;
    };
  }

  private noteArrival(push: { sets: { edits: { id: string }[] }[] }): void {
    for (const edit of push.sets.flatMap((set) => set.edits)) this.arrived.add(edit.id);
  }

  /** Everything on its way arrives, and every phone speaks until it has nothing to say. */
  async comeToRest(): Promise<void> {
    while (this.late.length) await this.late.shift()?.();
    for (const phone of [...this.phones, ...this.phones]) {
      for (const store of phone.tabs) await store.load();
      for (let turn = 0; turn < 10; turn++) {
        if ((await this.sync(phone, phone.tab(0), [])) === "in_step") break;
      }
    }
  }

  async told() {
    return { reloads: this.reloads, arrived: [...this.arrived], phones: await Promise.all(this.phones.map(phoneTold)) };
  }
}

function viewText(store: Store): string {
  return JSON.stringify([...viewOf(store.kept)].sort());
}

async function phoneTold(phone: Phone) {
  const store = phone.tab(0);
  await store.load();
  const { kept } = store;
  const answered = await phone.database.read(["answered"], (tx) => tx.objectStore("answered").getAll());
  return {
    made: [...phone.made.values()],
    cursor: kept.head?.cursor,
    scope: kept.head?.scope,
    records: entries(kept.records, (one) => one.record),
    versions: entries(kept.records, (one) => one.versions),
    removed: Object.fromEntries(kept.removed),
    waiting: Object.fromEntries(kept.waiting),
    outbox: kept.outbox,
    overlaid: kept.overlaid,
    view: Object.fromEntries(viewOf(kept)),
    answers: Object.fromEntries(answered.filter((row) => row.answer).map((row) => [row.id, row.answer])),
    elsewhere: Object.fromEntries(answered.filter((row) => !row.answer).map((row) => [row.id, row.how])),
  };
}

function entries<Value, Told>(from: ReadonlyMap<string, Value>, told: (value: Value) => Told): Record<string, Told> {
  return Object.fromEntries([...from].map(([key, value]) => [key, told(value)]));
}

/** A small generator of chance that a seed decides (Marsaglia's xorshift, 2003). */
function chanceFrom(seed: number): (below: number) => number {
  let state = seed * 2654435761 + 1;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}

export async function run(given: Given): Promise<unknown[]> {
  const told: unknown[] = [];
  for (const of of given.histories) {
    const history = new History(given, of, chanceFrom(of.seed));
    await history.begin();
    for (let step = 0; step < given.steps; step++) await history.step();
    await history.comeToRest();
    told.push(await history.told());
  }
  return told;
}
