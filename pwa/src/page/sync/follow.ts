/** Keeps this phone in step with the server while the page is open. */

import { effect } from "@preact/signals";
import { told } from "../journal/queries";
import { getJson, LineFault } from "../line/fetching";
import { isAnswer, lineTo, PROTOCOL } from "../line/line";
import { askTime, hearTime } from "../night/now";
import { StorageFault } from "../store/database";
import { newId } from "../store/ids";
import { line, noSite, person, storageFault } from "../store/queries";
import type { LineState } from "../store/shapes";
import { tidy } from "../store/upkeep";
import { language } from "../words/reader";
import { Loop } from "./loop";
import { listenForNudges } from "./nudges";
import { becomes, countUnsent, noteSpoken, openSite, readTheRest, store } from "./phone";
import { type Ending, type Greeting, round } from "./round";
import { aloneAmongTabs, Tabs, type Tiding } from "./tabs";

const APP_VERSION = "1";
const TIDY_AFTER_MS = 30_000;
const self = newId();
let tabs: Tabs | null = null;
const send = lineTo("", () => language.peek());

const loop = new Loop({
  round: speak,
  alone: (work) => aloneAmongTabs(store.peek()?.database ?? null, self, work),
  ended,
  show,
  expecting: () => {
    const head = store.peek()?.kept.head;
    return !!head && head.planned > 0 && head.planned < head.revision;
  },
  unsent: () => store.peek()?.kept.outbox.some((edit) => !edit.aside) ?? false,
  now: () => Date.now(),
  chance: () => (crypto.getRandomValues(new Uint32Array(1))[0] ?? 0) / 2 ** 32,
});

/** From now on. What the phone holds is on the screen already. */
export function followServer(): void {
  tabs = new Tabs();
  tabs.listen((tiding) => void hear(tiding));
  effect(() => store.value?.listen((what, _, here) => here && tabs?.tell({ what, ...whose() })));
  effect(() => {
    // Entries, accepted rests and photos are sent in the same rounds: told anew, all are counted.
    if (told.value) void guarded(countUnsent);
  });
  effect(() => {
    const opened = store.value;
    if (!opened) return;
    return listenForNudges({
      site: opened.site,
      stranger: !opened.owner,
      cursor: () => opened.kept.head?.cursor ?? 0,
      nudged: () => loop.wake(),
      alarmed: () => followJournal(),
    });
  });
  addEventListener("online", () => loop.wake(true));
  addEventListener("focus", () => loop.wake());
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && loop.wake());
  void start();
}

async function start(): Promise<void> {
  await guarded(readTheRest);
  // This may be a newer app than the one that was not understood.
  await guarded(async () => await store.peek()?.takeUpAgain());
  loop.wake(true);
  setTimeout(() => void guarded(tidyUp), TIDY_AFTER_MS);
}

/** What happens at night has a line of its own. Without its file, which is a broken line on a first visit, it waits.
 * The first screen must not share the line with this: call it when that screen stands. */
export function followJournal(): void {
  void import("../journal/following").then(
    (file) => file.followJournal(true),
    () => setTimeout(followJournal, TIDY_AFTER_MS),
  );
}

async function tidyUp(): Promise<void> {
  const opened = store.peek();
  if (opened) await tidy(opened, Math.floor(Date.now() / 1000), opened.kept.head?.tonight ?? "");
}

/** Something was kept, or somebody wants to know: speak to the server now. */
export function syncNow(): void {
  loop.wake();
}

/** Somebody has signed in or out on this phone, by whatever way: find out who it is now. */
export function personChanged(): void {
  tabs?.tell({ what: "person", ...whose() });
  loop.wake(true);
}

/** Nobody uses this phone any more; what is unsent on it stays, and waits for its person. */
export async function signedOut(): Promise<void> {
  await becomes(null);
  personChanged();
}

/** Look at another site from now on. */
export async function lookAt(site: string): Promise<void> {
  await openSite(site);
  await readTheRest();
  loop.wake(true);
}

async function speak(greet: boolean): Promise<Ending> {
  try {
    // The clock is asked along with the greeting, and neither waits for the other.
    if (greet) void askTime(language.peek()).catch(() => undefined);
    const opened = store.peek();
    if (!opened) return await find();
    const device = person.peek()?.device ?? null;
    const ending = await round({ store: opened, send, device, app_version: APP_VERSION, greet, heard });
    storageFault.value = opened.database ? null : storageFault.peek();
    return ending;
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
    return { how: "later" };
  }
}

/** No site is known on this phone yet: that of the person, or the first that anybody may read. */
async function find(): Promise<Ending> {
  const hello = await send("/api/sync/hello", { protocol: PROTOCOL, app_version: APP_VERSION });
  if (!isAnswer(hello)) return { how: "silent", wait_ms: hello.wait_ms };
  const greeting = hello.body as Greeting;
  heard(greeting);
  if (greeting.outcome === "update_needed") return { how: "update_needed" };
  await becomes(greeting.signed_in);
  const site = greeting.signed_in?.sites[0]?.site ?? (await firstSite());
  if (site === null) return { how: "silent", wait_ms: null };
  if (!site) return { how: "lost" };
  await openSite(site);
  return { how: "found" };
}

/** Null: no answer; empty: there is none. */
async function firstSite(): Promise<string | null> {
  try {
    const [first] = await getJson<{ id: string }[]>("/api/sites", language.peek());
    return first?.id ?? "";
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    return null;
  }
}

function heard(greeting: Greeting): void {
  hearTime(greeting.now);
  const { signed_in } = greeting;
  if (signed_in && signed_in.person === person.peek()?.id) void guarded(() => becomes(signed_in));
}

async function ended(ending: Ending): Promise<void> {
  await guarded(async () => {
    if (ending.how === "other") await becomes(ending.signed_in);
    if (ending.how === "other" || ending.how === "found") loop.wake();
    noSite.value = ending.how === "lost";
    if (ending.how !== "silent") await noteSpoken(Math.floor(Date.now() / 1000));
  });
}

function show(how: LineState["now"]): void {
  const aside = store.peek()?.kept.outbox.some((edit) => edit.aside);
  const now = how === "in_step" && aside ? "update_needed" : how;
  const at = Math.floor(Date.now() / 1000);
  const before = line.peek();
  const silent = now === "no_signal";
  const spoke = silent || now === "sending" ? before.spoke : at;
  const silent_since = silent ? (before.silent_since ?? at) : now === "sending" ? before.silent_since : null;
  line.value = { now, spoke, silent_since };
}

async function hear(tiding: Tiding): Promise<void> {
  const opened = store.peek();
  if (tiding.what === "person") return loop.wake(true);
  if (!opened || tiding.owner !== opened.owner) return;
  await guarded(async () => {
    if (tiding.what === "own") await opened.loadOwn();
    else if (tiding.site === opened.site && tiding.what === "copy") await opened.load();
    else if (tiding.site === opened.site) await opened.loadNights();
  });
}

function whose(): { owner: string; site: string } {
  const opened = store.peek();
  return { owner: opened?.owner ?? "", site: opened?.site ?? "" };
}

/** Storage may fail at any moment: then the app says so, and goes on with what it has. */
async function guarded(work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (fault) {
    if (!(fault instanceof StorageFault)) throw fault;
    storageFault.value = fault.why;
  }
}
