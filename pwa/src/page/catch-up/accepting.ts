/** Accept a rest of tonight. It holds on this phone at once, and is sent once there is a line, after what was told. */

import { effect, signal } from "@preact/signals";
import { KeepFault } from "../edits/fault";
import { told } from "../journal/queries";
import { detailOf, isAnswer, lineTo, mayBeLater } from "../line/line";
import type { NightSheet } from "../night/sheet";
import { StorageFault } from "../store/database";
import { newId } from "../store/ids";
import { line, person, storageFault } from "../store/queries";
import type { Store } from "../store/store";
import { restsKey } from "../store/unsent";
import { countUnsent, store } from "../sync/phone";
import { language } from "../words/reader";
import { EFFORT, type Offer, type Rest } from "./rests";

/** What the server is sent. `at`: for which instant the rest was worked out. */
export interface Acceptance {
  id: string;
  person: string;
  night: string;
  at: number;
  way: Rest["way"];
  effort: number;
  promised: Offer["promised"];
}

/** An acceptance that is not the server's yet. `before`: what comes back if it is turned away, with `fault`. */
export interface Unsent {
  given: Acceptance;
  before: NightSheet;
  fault: string | null;
}

export const unsent = signal<readonly Unsent[]>([]);
const AGAIN_MS = 20_000;
const send = lineTo("", () => language.peek());
let busy = false;

/** Raises `KeepFault` where nobody is signed in, or the phone keeps nothing. */
export async function accept(offer: Offer, rest: Rest): Promise<void> {
  const [opened, who] = [store.peek(), person.peek()];
  if (!opened) throw new KeepFault("no_site");
  if (!who || who.id !== opened.owner) throw new KeepFault("not_yours");
  if (!opened.database) throw new KeepFault("storage");
  const { at, promised, before } = offer;
  const about = { night: before.night, at, way: rest.way, effort: EFFORT, promised };
  const given = { id: newId(), person: who.id, ...about };
  try {
    await keep(opened, [...(await kept(opened)), { given, before, fault: null }]);
    await put(opened, rest.sheet);
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    throw new KeepFault("storage");
  }
  void sendAll();
}

/** Its person has read why it was turned away. */
export async function dismiss(id: string): Promise<void> {
  const opened = store.peek();
  if (opened) await keep(opened, await without(opened, id));
}

/** Read what waits, and send it when it can be; the way to stop is handed back. */
export function followAccepted(): () => void {
  const again = setInterval(() => void sendAll(), AGAIN_MS);
  const stops = [
    effect(() => {
      const opened = store.value;
      if (opened) void guarded(() => show(opened));
    }),
    effect(() => {
      if (line.value.now !== "no_signal" && unsent.value.length && told.value.length >= 0) void sendAll();
    }),
  ];
  return () => {
    clearInterval(again);
    for (const stop of stops) stop();
  };
}

async function show(opened: Store): Promise<void> {
  unsent.value = await kept(opened);
}

/** One after the other, in their order. What was told comes first: the server works the rest out from it. */
async function sendAll(): Promise<void> {
  const opened = store.peek();
  const tellings = told.peek().some((row) => row.site === opened?.site && !row.taken && row.faults === null);
  if (busy || !opened || tellings) return;
  busy = true;
  try {
    await guarded(async () => {
      for (const one of await kept(opened)) if (!one.fault && !(await sendOne(opened, one))) return;
    });
  } finally {
    busy = false;
  }
}

/** False: later. */
async function sendOne(opened: Store, one: Unsent): Promise<boolean> {
  const reply = await send(`/api/sites/${encodeURIComponent(opened.site)}/nights/tonight/catch-up`, one.given);
  if (isAnswer(reply)) await keep(opened, await without(opened, one.given.id));
  else if (mayBeLater(reply)) return false;
  else {
    const rows = await kept(opened);
    const fault = detailOf(reply) || String(reply.status);
    await keep(
      opened,
      rows.map((row) => (row.given.id === one.given.id ? { ...row, fault } : row)),
    );
    await put(opened, one.before);
  }
  return true;
}

/** The night as it is from now on here, until the server's own comes. */
async function put(opened: Store, sheet: NightSheet): Promise<void> {
  const held = opened.kept.nights.get(sheet.night);
  if (held) await opened.keepNight({ ...held, sheet });
}

async function without(opened: Store, id: string): Promise<Unsent[]> {
  return (await kept(opened)).filter((row) => row.given.id !== id);
}

async function kept(opened: Store): Promise<Unsent[]> {
  const rows = await opened.database?.read(["about"], (tx) => tx.objectStore("about").get(restsKey(opened)));
  return (rows as Unsent[] | undefined) ?? [];
}

async function keep(opened: Store, rows: readonly Unsent[]): Promise<void> {
  await opened.database?.write(["about"], true, async (tx) => {
    await tx.objectStore("about").put(rows, restsKey(opened));
  });
  unsent.value = rows;
  await countUnsent();
}

async function guarded(work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
  }
}
