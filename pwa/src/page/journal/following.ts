/** Keeps this phone in step with the site's journal and alarms while the page is open, on a line of its own beside sync. */

import { effect } from "@preact/signals";
import { tidyAlarms } from "../alarms/kept";
import { alarmRound } from "../alarms/round";
import { accepted } from "../catch-up/queries";
import { ownRound } from "../catch-up/round";
import { getJson } from "../line/fetching";
import { lineTo } from "../line/line";
import { serverTime } from "../night/now";
import { StorageFault } from "../store/database";
import { newId } from "../store/ids";
import type { KeptNight } from "../store/kept";
import { storageFault } from "../store/queries";
import type { Store } from "../store/store";
import { Loop } from "../sync/loop";
import { store } from "../sync/phone";
import type { Ending } from "../sync/round";
import { aloneAmongTabs } from "../sync/tabs";
import { tidyPhotos } from "../wet-check/photos/kept";
import { photoLine, photoRound } from "../wet-check/photos/sending";
import { language } from "../words/reader";
import { tidyEntries } from "./kept";
import { showJournal } from "./publish";
import { told } from "./queries";

const CHANNEL = "pengan.journal";
const TIDY_AFTER_MS = 60_000;
const IN_STEP: Ending = { how: "in_step" };
const self = newId();
const send = lineTo("", () => language.peek());
const ask = (path: string) => getJson(path, language.peek());
const sendPhoto = photoLine(() => language.peek());
let channel: BroadcastChannel | null = null;
let begun = false;

const loop = new Loop({
  round: speak,
  alone: (work) => aloneAmongTabs(store.peek()?.database ?? null, self, work, "journal"),
  ended: async () => undefined,
  // How the line is, is told by sync.
  show: () => undefined,
  // Alarms may come at any moment: whoever looks hears of one within a minute.
  expecting: () => document.visibilityState === "visible",
  unsent: () =>
    told.peek().some((row) => !row.taken && row.faults === null) || accepted.peek().some((row) => row.fault === null),
  now: () => Date.now(),
  chance: () => (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) / 2 ** 32,
});

/** From now on. `wake`: something is said to have changed. */
export function followJournal(wake = false): void {
  if (wake && begun) loop.wake();
  if (begun) return;
  begun = true;
  if (typeof BroadcastChannel !== "undefined") {
    channel = new BroadcastChannel(CHANNEL);
    channel.addEventListener("message", () => void read());
  }
  effect(() => {
    if (store.value) void read().then(() => loop.wake());
  });
  addEventListener("online", () => loop.wake());
  addEventListener("focus", () => loop.wake());
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && loop.wake());
  setTimeout(() => void guarded(tidyUp), TIDY_AFTER_MS);
}

/** Something was kept or done: show it, and speak to the server now. */
export async function journalChanged(): Promise<void> {
  followJournal();
  await read();
  channel?.postMessage(self);
  loop.wake();
}

async function read(): Promise<void> {
  const opened = store.peek();
  if (opened) await guarded(() => showJournal(opened));
}

async function speak(): Promise<Ending> {
  const opened = store.peek();
  if (!opened?.database) return { how: "in_step" };
  try {
    const ending = await both(opened);
    await read();
    channel?.postMessage(self);
    return ending;
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    return { how: "later" };
  }
}

/** Alarms are open to everybody who may read the site, the journal to those who work there. */
async function both({ database, owner, site }: Store): Promise<Ending> {
  if (!database) return { how: "in_step" };
  const parts = { database, of: { owner, site }, now: serverTime() };
  const own = owner ? await ownRound({ ...parts, send, putBack }) : IN_STEP;
  const alarms = await alarmRound({ ...parts, ask });
  // Photos are large: they come after everything else, and hold nothing up.
  const photos = owner ? await photoRound(database, owner, sendPhoto) : IN_STEP;
  return [own, alarms, photos].find((ending) => ending.how !== "in_step") ?? IN_STEP;
}

async function putBack(site: string, night: KeptNight): Promise<void> {
  const opened = store.peek();
  if (opened?.site === site) await opened.keepNight(night);
}

async function tidyUp(): Promise<void> {
  const opened = store.peek();
  if (!opened?.database) return;
  await tidyEntries(opened.database, opened, serverTime());
  await tidyAlarms(opened.database, opened, serverTime());
  await tidyPhotos(opened.database, Math.floor(Date.now() / 1000));
}

async function guarded(work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
  }
}
