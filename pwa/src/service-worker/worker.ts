/** The service worker: the app opens without the server, and a new version waits until it is asked in. */

import type { ToWorker } from "../wire/shell";
import { built } from "./built";
import { findKept, useVersion } from "./caches";
import { keepReaders } from "./languages";
import { isPlanners, plannersFile } from "./planner";
import { openTonight, showPushed } from "./push";
import { keepRest, letGo } from "./rest";
import { fileOf, installShell, isOfShell, pageFor } from "./shell";

declare const self: ServiceWorkerGlobalScope;

/** Pages of the version before this one stay open, and go on finding their files. */
const BEFORE = 1;
const INSTALL_PATIENCE_MS = 60_000;

self.addEventListener("install", (event) => event.waitUntil(install(event)));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => hear(event, event.data as ToWorker));
self.addEventListener("push", (event) => event.waitUntil(showPushed(event)));
self.addEventListener("notificationclick", (event) => event.waitUntil(openTonight(event)));
self.addEventListener("fetch", (event) => {
  const answer = answerFor(event);
  if (answer) event.respondWith(answer);
});

async function install(event: ExtendableEvent): Promise<void> {
  await installShell(event);
  await keepReaders(AbortSignal.timeout(INSTALL_PATIENCE_MS));
}

async function activate(): Promise<void> {
  await useVersion("shell", built.shell.version, BEFORE);
  await useVersion("languages", built.languages.version, BEFORE);
  await self.clients.claim();
}

function hear(event: ExtendableMessageEvent, word: ToWorker): void {
  if (word.ask === "keep") event.waitUntil(keepRest(event, word));
  if (word.ask === "take-over") void self.skipWaiting();
  if (word.ask === "let-go") letGo();
}

/** Undefined: the browser asks the server itself, as it does for all of `/api`. */
function answerFor(event: FetchEvent): Promise<Response> | undefined {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return undefined;
  if (request.mode === "navigate") return isAppAddress(url) ? pageFor(event) : undefined;
  if (isPlanners(url.pathname)) return plannersFile(request);
  if (isOfShell(url.href)) return fileOf(event, url.href);
  return url.pathname.startsWith("/assets/") ? keptOrFetched(request) : undefined;
}

/** Addresses with a dot are files, and those of the server's own are its own; all others are rooms of the app. */
function isAppAddress(url: URL): boolean {
  return !/^\/(?:api|metrics|planner|assets)(?:\/|$)/.test(url.pathname) && !/\.[a-z0-9]+$/i.test(url.pathname);
}

async function keptOrFetched(request: Request): Promise<Response> {
  return (await findKept(request.url)) ?? fetch(request);
}
