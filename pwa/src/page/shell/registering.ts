/** The service worker as the page sees it: registered once the first screen stands, then kept an eye on. */

import { signal } from "@preact/signals";
import type { FromWorker, KeptState, ToWorker } from "../../wire/shell";
import { canRun } from "../planner/planner";
import { language } from "../words/reader";
import { saveDrafts } from "./drafts";

/** What is kept for the time without signal; null until the worker has told. */
export const kept = signal<KeptState | null>(null);
/** `off`: the server has switched the worker off. `none`: this browser has none, or forbids it. */
export const offline = signal<"unknown" | "on" | "off" | "none">("unknown");
/** A newer version waits to be asked in. */
export const newVersion = signal(false);
/** A part of the app could be fetched from nowhere. */
export const partMissing = signal(false);

const WORKER = "/service-worker.js";
const LOOK_AGAIN_MS = 60 * 60_000;

let registration: ServiceWorkerRegistration | null = null;

/** Begin, and follow. The first screen must not share the line with this: call it when that screen stands. */
export async function followWorker(): Promise<void> {
  addEventListener("vite:preloadError", () => {
    partMissing.value = true;
  });
  const workers = "serviceWorker" in navigator ? navigator.serviceWorker : null;
  if (!workers) {
    offline.value = "none";
    return;
  }
  workers.addEventListener("message", (event: MessageEvent<FromWorker>) => hear(event.data));
  reloadWithNewVersion(workers);
  await register(workers);
}

async function register(workers: ServiceWorkerContainer): Promise<void> {
  try {
    registration = await workers.register(WORKER, { updateViaCache: "none" });
    offline.value = "on";
    watch(registration, workers);
    await workers.ready;
    keepEverything();
  } catch {
    // Without signal nothing new can be registered, and a worker from before goes on; else the browser forbids it.
    registration = (await workers.getRegistration()) ?? null;
    offline.value = registration ? "on" : "none";
    if (registration) watch(registration, workers);
  }
}

function watch(known: ServiceWorkerRegistration, workers: ServiceWorkerContainer): void {
  // Without a page of an older version there is nothing to wait for: then the worker goes in at once.
  const look = () => {
    newVersion.value = known.waiting !== null && workers.controller !== null;
  };
  look();
  known.addEventListener("updatefound", () => known.installing?.addEventListener("statechange", look));
  addEventListener("online", keepEverything);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && lookForNew());
  setInterval(lookForNew, LOOK_AGAIN_MS);
}

function lookForNew(): void {
  keepEverything();
  // Offline this fails, and the next look comes by itself.
  registration?.update().catch(() => undefined);
}

/** Have the worker fetch what is not kept yet. It goes on where it was stopped. */
export function keepEverything(): void {
  const asked: ToWorker = { ask: "keep", language: language.peek(), planner: plannerRuns() };
  registration?.active?.postMessage(asked);
}

function plannerRuns(): boolean {
  return canRun((navigator as { deviceMemory?: number }).deviceMemory);
}

function hear(word: FromWorker): void {
  if (word.tell === "kept") kept.value = word.state;
  if (word.tell === "off") offline.value = "off";
}

/** All pages of the older version open anew, each once its drafts are safe. The first worker ever changes nothing. */
function reloadWithNewVersion(workers: ServiceWorkerContainer): void {
  let older = workers.controller !== null;
  workers.addEventListener("controllerchange", () => {
    if (older) void reload();
    older = true;
  });
}

/** Let the version that waits take over. */
export async function useNewVersion(): Promise<void> {
  await saveDrafts();
  const waiting = registration?.waiting;
  if (!waiting) return reload();
  const [letGo, takeOver]: ToWorker[] = [{ ask: "let-go" }, { ask: "take-over" }];
  registration?.active?.postMessage(letGo);
  waiting.postMessage(takeOver);
}

export async function reload(): Promise<void> {
  await saveDrafts();
  location.reload();
}
