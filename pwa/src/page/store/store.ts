/** The phone's store of one site: every change of it is one transaction, safe beside other tabs, and told to screens.
 *
 * What is in memory is what was read or written last. Another tab may be ahead of it: each transaction looks for itself. */

import { afterAnswers } from "./answers";
import type { AnsweredRow, Database, Stores, Writing } from "./database";
import { type Kept, type KeptNight, nothingKept, type OutboxEdit } from "./kept";
import { nextPush, type Push, pushOf } from "./outbox";
import { type Asked, type Page, takePull } from "./pulled";
import { COPY, copyIn, dropCopy, dropNights, headIn, NIGHTS, nightsIn, OWN, ownIn, putNight, writePull } from "./rows";
import type { Answer } from "./shapes";
import { isToBeSent, UNSENT, waitsIn } from "./unsent";

/** What has changed: screens and other tabs follow. */
export type What = "copy" | "own" | "nights";

/** `here`: it was changed by this tab, and not only read anew. */
type Ear = (what: What, answered: readonly AnsweredRow[], here: boolean) => void;

const EVERYTHING: Stores[] = [...COPY, ...OWN];

export class Store {
  kept: Kept;
  private readonly ears = new Set<Ear>();

  constructor(
    /** Null: the browser keeps nothing, and everything is gone with the page. */
    readonly database: Database | null,
    owner: string,
    site: string,
    private readonly clock: () => number = () => Math.floor(Date.now() / 1000),
  ) {
    this.kept = nothingKept(owner, site);
  }

  get owner(): string {
    return this.kept.owner;
  }

  get site(): string {
    return this.kept.site;
  }

  /** Hear of each change; the way to stop is handed back. */
  listen(ear: Ear): () => void {
    this.ears.add(ear);
    return () => this.ears.delete(ear);
  }

  /** Read what the phone holds: the copy, and the nights from a date on, so many. */
  async load(from = "", most?: number): Promise<void> {
    if (!this.database) return;
    const read = await this.database.read([...EVERYTHING, "nights"], async (tx) => {
      const [kept, nights] = await Promise.all([copyIn(tx, this.kept), nightsIn(tx, this.kept, from, most)]);
      return { ...kept, nights };
    });
    this.put(read, false, "copy", "nights");
  }

  async loadNights(): Promise<void> {
    if (!this.database) return;
    const nights = await this.database.read(["nights"], (tx) => nightsIn(tx, this.kept));
    this.put({ ...this.kept, nights }, false, "nights");
  }

  /** Another tab has changed one's own edits. */
  async loadOwn(): Promise<void> {
    if (!this.database) return;
    const own = await this.database.read([...OWN], (tx) => ownIn(tx, this.kept));
    this.put({ ...this.kept, ...own }, false, "own");
  }

  // Own edits -------------------------------------------------------------------------------------------------------

  /** Change one's own edits in one strict transaction. `work` gets them as the database has them now. */
  async changeOwn<Result>(work: (own: OwnEdits) => Promise<Result>): Promise<Result> {
    const result = await this.ownDatabase().write([...OWN, "answered"], true, async (tx) => {
      const own = new OwnEdits(tx, this.owner, this.clock(), await ownIn(tx, this.kept));
      return { told: await work(own), ...(await ownIn(tx, this.kept)), answered: own.answered };
    });
    this.put({ ...this.kept, outbox: result.outbox, overlaid: result.overlaid }, true, "own");
    if (result.answered.length) this.tell("own", result.answered, true);
    return result.told;
  }

  /** The first sets of the outbox, which count as sent from now on; null where nothing is to be sent. */
  async nextPush(device: string | null, alone = false): Promise<Push | null> {
    if (!this.database || !this.kept.outbox.some((edit) => !edit.aside)) return null;
    return await this.changeOwn(async (own) => {
      const chosen = nextPush(own.outbox, alone);
      await own.put(chosen.filter((edit) => !edit.sent).map((edit) => ({ ...edit, sent: true })));
      return chosen.length ? pushOf(chosen, this.owner, device) : null;
    });
  }

  /** Each answered edit leaves the outbox for the one place its answer names. */
  async takeAnswers(answers: readonly Answer[]): Promise<void> {
    if (!this.database) return;
    const stores: Stores[] = [...OWN, "answered", "heads"];
    const rows = await this.database.write(stores, true, async (tx) => {
      const own = await ownIn(tx, this.kept);
      const cursors = await cursorsIn(tx, this.owner, own.outbox);
      const after = afterAnswers(own.outbox, own.overlaid, answers, (site) => cursors.get(site) ?? null);
      const rows = after.answered.map(({ edit, answer }) => this.answeredRow(edit, answer));
      await Promise.all([
        ...after.answered.map(({ edit }) => tx.objectStore("outbox").delete(edit.place)),
        ...after.overlaid.map((edit) => tx.objectStore("overlaid").put(edit)),
        ...rows.map((row) => tx.objectStore("answered").put(row)),
      ]);
      return { rows, ...(await ownIn(tx, this.kept)) };
    });
    this.put({ ...this.kept, outbox: rows.outbox, overlaid: rows.overlaid }, true, "own");
    this.tell("own", rows.rows, true);
  }

  /** A set that the server cannot read waits for a newer app and delays no other. */
  async putAside(set: string, status: number, detail: string): Promise<void> {
    await this.changeOwn(async (own) => {
      const found = own.outbox.filter((edit) => edit.set === set);
      await own.put(found.map((edit) => ({ ...edit, aside: { status, detail } })));
    });
  }

  /** A newer app may be understood: what was put aside is sent again. */
  async takeUpAgain(): Promise<void> {
    if (!this.kept.outbox.some((edit) => edit.aside)) return;
    await this.changeOwn(async (own) => {
      const found = own.outbox.filter((edit) => edit.aside);
      await own.put(found.map(({ aside: _, ...edit }) => edit));
    });
  }

  private answeredRow(edit: OutboxEdit, answer: Answer): AnsweredRow {
    const { owner } = this.kept;
    return { id: edit.id, owner, site: edit.site, edit, answer, how: "answered", by: owner, at: this.clock() };
  }

  /** One's own edits of late and what became of them, newest first. */
  async recent(most: number): Promise<AnsweredRow[]> {
    if (!this.database) return [];
    return await this.database.read(["answered"], async (tx) => {
      const found: AnsweredRow[] = [];
      let at = await tx.objectStore("answered").index("at").openCursor(null, "prev");
      for (; at && found.length < most; at = await at.continue()) {
        if (at.value.owner === this.owner) found.push(at.value);
      }
      return found;
    });
  }

  // The server's copy -----------------------------------------------------------------------------------------------

  get asked(): Asked {
    const { head } = this.kept;
    return { cursor: head?.cursor ?? null, scope: head?.scope ?? null, sheets: head?.sheets ?? 0 };
  }

  /** Store all pages and the cursor as one. False: the copy has moved on meanwhile, and the pages say nothing. */
  async takePull(asked: Asked, pages: readonly Page[]): Promise<boolean> {
    const taken = takePull(this.kept, pages);
    if (!taken || !sameGround(asked, this.asked)) return false;
    if (!this.database) {
      this.put(taken.kept, true, "copy", "nights");
      return true;
    }
    const stores: Stores[] = [...EVERYTHING, "nights", "answered"];
    const own = await this.database.write(stores, false, async (tx) => {
      const head = await headIn(tx, this.kept);
      if (!sameGround(asked, { cursor: head?.cursor ?? null, scope: head?.scope ?? null, sheets: asked.sheets })) {
        return null;
      }
      await writePull(tx, taken);
      const passed = (await ownIn(tx, this.kept)).overlaid.filter((edit) => !taken.stillOver(edit));
      await Promise.all(passed.map((edit) => tx.objectStore("overlaid").delete(edit.id)));
      await noteDecisions(tx, taken.kept, taken.waiting);
      return await ownIn(tx, this.kept);
    });
    if (own === null) {
      await this.load();
      return false;
    }
    // Nights that were read meanwhile stay.
    const nights = new Map([...this.kept.nights, ...taken.kept.nights]);
    this.put({ ...taken.kept, ...own, nights }, true, "copy", "nights");
    return true;
  }

  /** A night that was asked for by itself. */
  async keepNight(night: KeptNight): Promise<void> {
    await this.database?.write(["nights"], false, (tx) => putNight(tx, this.kept, night));
    this.put({ ...this.kept, nights: new Map(this.kept.nights).set(night.night, night) }, true, "nights");
  }

  /** Access is gone, and all that could be sent has reached the server: the copy leaves the phone. False: something has not.
   * What the server would not have stays here for its person, and holds no copy back. */
  async forgetSite(): Promise<boolean> {
    const stores = [...new Set<Stores>([...EVERYTHING, ...NIGHTS, ...UNSENT])];
    const gone = await this.database?.write(stores, false, async (tx) => {
      if (isToBeSent(await waitsIn(tx), this)) return false;
      const { overlaid } = await ownIn(tx, this.kept);
      const over = overlaid.filter((edit) => edit.site === this.site);
      await Promise.all([dropCopy(tx, this.kept), dropNights(tx, this.kept)]);
      await Promise.all(over.map((edit) => tx.objectStore("overlaid").delete(edit.id)));
      return true;
    });
    if (gone === false) return false;
    const { outbox, overlaid } = this.kept;
    const elsewhere = overlaid.filter((edit) => edit.site !== this.site);
    this.put({ ...nothingKept(this.owner, this.site), outbox, overlaid: elsewhere }, true, "copy", "nights");
    return true;
  }

  private ownDatabase(): Database {
    if (!this.database) throw new Error("nothing is kept on this phone");
    return this.database;
  }

  private put(kept: Kept, here: boolean, ...what: What[]): void {
    this.kept = kept;
    for (const one of what) this.tell(one, [], here);
  }

  private tell(what: What, answered: readonly AnsweredRow[], here: boolean): void {
    for (const ear of this.ears) ear(what, answered, here);
  }
}

/** One's own edits inside a transaction: what there is, and what may be done with it. */
export class OwnEdits {
  readonly outbox: readonly OutboxEdit[];
  readonly overlaid: Kept["overlaid"];
  readonly answered: AnsweredRow[] = [];

  constructor(
    private readonly tx: Writing,
    private readonly owner: string,
    private readonly now: number,
    own: Pick<Kept, "outbox" | "overlaid">,
  ) {
    this.outbox = own.outbox;
    this.overlaid = own.overlaid;
  }

  async add(edits: readonly Omit<OutboxEdit, "place">[]): Promise<void> {
    // One after the other: their places keep the order.
    for (const edit of edits) await this.tx.objectStore("outbox").add(edit as OutboxEdit);
  }

  async put(edits: readonly OutboxEdit[]): Promise<void> {
    await Promise.all(edits.map((edit) => this.tx.objectStore("outbox").put(edit)));
  }

  /** Edits leave the outbox without ever having been sent. */
  async drop(edits: readonly OutboxEdit[], how: "folded" | "discarded"): Promise<void> {
    for (const edit of edits) {
      const row = {
        id: edit.id,
        owner: this.owner,
        site: edit.site,
        edit,
        answer: null,
        how,
        by: this.owner,
        at: this.now,
      };
      this.answered.push(row);
      await this.tx.objectStore("outbox").delete(edit.place);
      await this.tx.objectStore("answered").put(row);
    }
  }

  /** What became of an edit, where that is still known. */
  async fateOf(id: string): Promise<AnsweredRow | undefined> {
    return await this.tx.objectStore("answered").get(id);
  }

  /** All edits of an act that are no longer in the outbox. */
  async answeredOf(together: string): Promise<AnsweredRow[]> {
    const rows = await this.tx.objectStore("answered").getAll();
    return rows.filter((row) => row.edit.together === together);
  }
}

async function cursorsIn(tx: Writing, owner: string, edits: readonly OutboxEdit[]): Promise<Map<string, number>> {
  const cursors = new Map<string, number>();
  for (const site of new Set(edits.map((edit) => edit.site))) {
    const head = await headIn(tx, { owner, site });
    if (head) cursors.set(site, head.cursor);
  }
  return cursors;
}

function sameGround(one: Asked, other: Asked): boolean {
  return one.cursor === other.cursor && one.scope === other.scope;
}

/** What was held or waited for a decision has its final answer with the pull that tells of it. */
async function noteDecisions(tx: Writing, kept: Kept, ids: readonly string[]): Promise<void> {
  for (const id of ids) {
    const [row, waiting] = [await tx.objectStore("answered").get(id), kept.waiting.get(id)];
    if (row && waiting) await tx.objectStore("answered").put({ ...row, answer: waiting.answer });
  }
}
