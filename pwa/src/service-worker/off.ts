/** What the server hands out in the worker's place while the app is switched off: it clears up after it, and goes. */

import type { FromWorker } from "../wire/shell";
import { forgetAll } from "./caches";

declare const self: ServiceWorkerGlobalScope;

self.addEventListener("install", () => void self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(leave()));

/** What people wrote is in the page's own storage, which is not touched. */
async function leave(): Promise<void> {
  await forgetAll();
  await self.registration.unregister();
  const ours = await self.clients.matchAll({ type: "window" });
  const all = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const word: FromWorker = { tell: "off" };
  for (const client of all) client.postMessage(word);
  // Only pages that came out of the cleared caches are opened anew; a page that came from the server stays.
  for (const client of ours) await client.navigate(client.url).catch(() => null);
  // What the worker before was still keeping for one of them, as it was asked to, goes as well.
  await forgetAll();
}
