/** A server in miniature, for tests: it judges edits by the protocol, and knows nothing of the client. */

import type { Reply } from "../line/line";

type Row = Record<string, unknown>;
export type ModelRole = "manager" | "lead" | "crew" | null;

interface Held {
  record: Row & { table: string; id: string };
  versions: Record<string, number>;
  order: number;
  removed: boolean;
  revision: number;
}

interface WireEdit {
  id: string;
  kind: string;
  table: string;
  record: string;
  field: string | null;
  seen: unknown;
  now: unknown;
  settles: string | null;
}

interface Receipt {
  edit: WireEdit;
  set: string;
  person: string;
  answer: Row & { outcome: string };
  /** The version it stands for where a later edit says that it has seen it. */
  stands: number | null;
  /** What its own editor had seen: values are absolute. */
  saw: number | null;
}

interface Waits {
  tray: string;
  open: boolean;
  receipt: Receipt;
  changed: number;
}

const BAD = -1;

export class ModelServer {
  counter = 0;
  readonly held = new Map<string, Held>();
  readonly receipts = new Map<string, Receipt>();
  readonly roles = new Map<string, { role: ModelRole; scope: number }>();
  /** How often each edit changed the document. */
  readonly applied = new Map<string, number>();
  readonly broken: string[] = [];
  private readonly waits = new Map<string, Waits>();

  constructor(
    readonly site: string,
    records: (Row & { table: string; id: string })[],
    people: readonly [string, ModelRole][],
    private readonly page = 3,
  ) {
    for (const record of records) this.put(record);
    for (const [person, role] of people) this.roles.set(person, { role, scope: 1 });
  }

  private put(record: Held["record"]): void {
    const order = this.held.size;
    this.held.set(keyOf(record), { record, versions: {}, order, removed: false, revision: this.counter });
  }

  setRole(person: string, role: ModelRole): void {
    this.roles.set(person, { role, scope: (this.roles.get(person)?.scope ?? 0) + 1 });
  }

  /** The records as they stand, by `table/id`. */
  get document(): Map<string, Row> {
    const live = [...this.held].filter(([, held]) => !held.removed);
    return new Map(live.map(([key, held]) => [key, held.record]));
  }

  /** One call of somebody whom the cookie names. */
  answer(person: string | null, path: string, body: unknown): Reply {
    const said = structuredClone(body) as Row;
    if (path === "/api/sync/hello") return this.hello(person, said);
    if (path === "/api/sync/push") return this.push(person, said);
    return this.pull(person, said);
  }

  private hello(person: string | null, said: Row): Reply {
    const known = person ? this.roles.get(person) : undefined;
    const signed_in = person && known ? { person, device: "d", profile: { name: person }, sites: [] } : null;
    if (!person || (said.person ?? person) !== person) return ok({ outcome: "signed_out", now: 1, signed_in });
    if (!known?.role) return problem(404);
    return ok({ outcome: "ok", now: 1, signed_in });
  }

  private push(person: string | null, said: Row): Reply {
    if (!person || said.person !== person) return problem(401);
    const sets = said.sets as { id: string; edits: WireEdit[] }[];
    if (sets.some((set) => set.edits.some((edit) => edit.now === "unreadable"))) return problem(422);
    return ok({ answers: sets.flatMap((set) => this.judge(person, set)), unanswered: [] });
  }

  private judge(person: string, set: { id: string; edits: WireEdit[] }): Row[] {
    const fresh = set.edits.filter((edit) => !this.receipts.has(edit.id));
    if (fresh.length) this.judgeFresh(person, set.id, fresh);
    return set.edits.map((edit) => {
      const receipt = this.receipts.get(edit.id);
      if (receipt?.person !== person) this.broken.push(`${edit.id} came as ${person}'s`);
      return { id: edit.id, set: set.id, ...receipt?.answer };
    });
  }

  private judgeFresh(person: string, set: string, edits: WireEdit[]): void {
    const role = this.roles.get(person)?.role ?? null;
    const draft = new Map([...this.held].map(([key, held]) => [key, structuredClone(held)]));
    const revision = this.counter + 1;
    const found = edits.map((edit) => this.verdict(edit, role, draft, revision, person, set));
    const fell = ["held", "removed", "refused", "disputed"].find((one) =>
      found.some((item) => item.answer.outcome === one),
    );
    this.counter = revision;
    for (const receipt of found) {
      if (fell && ["taken", "agreed"].includes(receipt.answer.outcome)) {
        receipt.answer = { outcome: fell, with: [], theirs: null };
        receipt.stands = receipt.saw;
      }
      this.receipts.set(receipt.edit.id, receipt);
      if (fell) this.waits.set(receipt.edit.id, { tray: fell, open: true, receipt, changed: revision });
      else if (receipt.answer.outcome === "taken")
        this.applied.set(receipt.edit.id, (this.applied.get(receipt.edit.id) ?? 0) + 1);
    }
    if (fell) return;
    for (const [key, held] of draft) this.held.set(key, held);
    for (const { edit } of found) this.close(edit.settles);
  }

  private close(settled: string | null): void {
    const waits = this.waits.get(settled ?? "");
    if (waits) Object.assign(waits, { open: false, changed: this.counter });
  }

  private verdict(
    edit: WireEdit,
    role: ModelRole,
    draft: Map<string, Held>,
    revision: number,
    person: string,
    set: string,
  ): Receipt {
    const told = (answer: Receipt["answer"], stands?: number | null): Receipt => {
      const saw = this.saw(edit, edit.seen);
      const receipt = { edit, set, person, answer, stands: stands ?? saw, saw };
      this.receipts.set(edit.id, receipt);
      return receipt;
    };
    if (role !== "manager" && role !== "lead" && edit.field !== "notes") return told({ outcome: "held", why: "role" });
    if (edit.now === BAD) return told({ outcome: "refused", code: "bad", params: {}, faults: [] });
    const held = draft.get(keyOf(edit));
    if (edit.kind === "add") {
      if (held) return told({ outcome: "refused", code: "exists", params: {}, faults: [] });
      const record = { ...(edit.now as Row), table: edit.table, id: edit.record };
      draft.set(keyOf(edit), { record, versions: {}, order: 1000 + this.held.size, removed: false, revision });
      return told({ outcome: "taken", version: 1, revision }, 1);
    }
    if (!held) return told({ outcome: "refused", code: "none", params: {}, faults: [] });
    const field = edit.kind === "remove" || edit.kind === "restore" ? "removed" : (edit.field ?? "");
    if (held.removed && field !== "removed") return told({ outcome: "removed", by: "x", when: 1 });
    return told(...this.write(edit, held, field, revision));
  }

  private write(edit: WireEdit, held: Held, field: string, revision: number): [Receipt["answer"], number | null] {
    const current = held.versions[field] ?? 1;
    const wanted = edit.kind === "remove" ? true : edit.kind === "restore" ? false : edit.now;
    const standing = field === "removed" ? held.removed : (held.record[field] ?? null);
    if (wanted === standing) return [{ outcome: "agreed", version: current, revision }, current];
    const saw = edit.kind === "remove" ? this.sawAll(edit, held, current) : this.saw(edit, edit.seen);
    if (saw !== current) return [{ outcome: "disputed", theirs: standing, by: "x", when: 1 }, saw];
    held.versions[field] = current + 1;
    held.revision = revision;
    if (field === "removed") held.removed = wanted === true;
    else held.record = { ...held.record, [field]: wanted };
    if (wanted === null) delete held.record[field];
    return [{ outcome: "taken", version: current + 1, revision }, current + 1];
  }

  private saw(edit: WireEdit, seen: unknown): number | null {
    if (typeof seen !== "string") return typeof seen === "number" ? seen : null;
    const earlier = this.receipts.get(seen);
    return earlier && keyOf(earlier.edit) === keyOf(edit) ? earlier.stands : null;
  }

  private sawAll(edit: WireEdit, held: Held, current: number): number | null {
    const seen = edit.seen as Row;
    const known = Object.entries(held.versions).every(
      ([field, version]) => this.saw(edit, seen[field] ?? 1) === version,
    );
    return known ? current : null;
  }

  private pull(person: string | null, said: Row): Reply {
    const known = this.roles.get(person ?? "");
    if ((said.person ?? person) !== person) return problem(401);
    if (!known?.role) return problem(404);
    const scope = `e.${known.scope}`;
    const after = typeof said.after === "string" ? said.after.split("~") : null;
    const goesOn = after !== null && after[0] === scope;
    const cursor = said.scope === scope && typeof said.cursor === "number" ? said.cursor : null;
    const since = goesOn ? Number(after[1]) : after ? null : cursor;
    const [from, fresh] = goesOn ? [Number(after[2]), after[3] === "1"] : [since ?? -1, since === null];
    const rows = [...this.held.values()]
      .filter((held) => held.revision > from)
      .sort((a, b) => a.revision - b.revision || a.order - b.order);
    const last = rows[this.page - 1]?.revision;
    const some = rows.filter((held, place) => place < this.page || held.revision === last);
    const next =
      some.length < rows.length ? `${scope}~${since ?? this.counter}~${some.at(-1)?.revision}~${fresh ? 1 : 0}` : null;
    const waiting = next ? [] : this.trays(person, known.role, fresh ? null : (since ?? null));
    return ok({
      site: this.site,
      fresh,
      first: !goesOn,
      cursor: this.counter,
      scope,
      next,
      revision: this.counter,
      format: 1,
      role: known.role,
      people: {},
      waiting,
      sheets: null,
      notices: [],
      records: some.filter((held) => !held.removed).map(({ record, versions, order }) => ({ record, versions, order })),
      removals: some
        .filter((held) => held.removed && !fresh)
        .map(({ record, versions }) => ({
          table: record.table,
          id: record.id,
          version: versions.removed ?? 1,
        })),
    });
  }

  private trays(person: string | null, role: ModelRole, since: number | null): Row[] {
    const seen = [...this.waits.values()].filter((one) => (since === null ? one.open : one.changed > since));
    const own = seen.filter((one) => role === "manager" || one.receipt.person === person || one.tray === "disputed");
    return own.map(({ tray, open, receipt }) => ({
      tray,
      open,
      edit: { ...receipt.edit, set: receipt.set, person: receipt.person, at: 1 },
      answer: { id: receipt.edit.id, set: receipt.set, ...receipt.answer },
      closed_how: null,
      closed_by: null,
      closed_at: open ? null : 1,
      effect: null,
    }));
  }
}

function keyOf(row: { table: string; id?: string; record?: unknown }): string {
  return `${row.table}/${typeof row.record === "string" ? row.record : row.id}`;
}

function ok(body: Row): Reply {
  return { status: 200, ours: true, body: structuredClone(body), wait_ms: null };
}

function problem(status: number): Reply {
  return { status, ours: true, body: { detail: "" }, wait_ms: null };
}
