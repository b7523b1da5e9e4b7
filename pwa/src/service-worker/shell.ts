/** The shell: what the page cannot open without. It comes whole or not at all, and is mended where the system took some. */

import { PrecacheController } from "workbox-precaching/PrecacheController";
import { built } from "./built";
import { cacheName, findKept } from "./caches";
import { patient } from "./fetching";

const PAGE = "/index.html";
const NAME = cacheName("shell", built.shell.version);
const INSTALL_PATIENCE_MS = 60_000;
/** Somebody waits for the screen. */
const MEND_PATIENCE_MS = 5_000;

/** Set while the worker installs: then nobody waits in front of a screen. */
let patience = MEND_PATIENCE_MS;

const controller = new PrecacheController({
  cacheName: NAME,
  plugins: [
    // A line that hangs must not hold the worker, or the screen, for ever.
    { requestWillFetch: async ({ request }) => new Request(request, { signal: AbortSignal.timeout(patience) }) },
  ],
});
controller.addToCacheList(built.shell.files);

/** Fetch what this version has anew, and take over what an earlier one holds already. Fails as a whole. */
export async function installShell(event: ExtendableEvent): Promise<void> {
  patience = INSTALL_PATIENCE_MS;
  await takeOver();
  await controller.install(event);
  patience = MEND_PATIENCE_MS;
}

async function takeOver(): Promise<void> {
  const cache = await caches.open(NAME);
  const named = built.shell.files.filter((file) => file.revision === null);
  await Promise.all(
    named.map(async ({ url }) => {
      const kept = await findKept(url);
      if (kept) await cache.put(url, kept);
    }),
  );
}

export async function countShell(): Promise<{ have: number; of: number }> {
  const cache = await caches.open(NAME);
  const keys = [...controller.getURLsToCacheKeys().values()];
  const found = await Promise.all(keys.map((key) => cache.match(key)));
  return { have: found.filter(Boolean).length, of: keys.length };
}

/** Fetch what the system took away. Raises where the line does not bring it. */
export async function mendShell(event: ExtendableEvent): Promise<void> {
  for (const { url } of built.shell.files) await fileOf(event, url);
}

export function isOfShell(url: string): boolean {
  return controller.getCacheKeyForURL(url) !== undefined;
}

/** A file of the shell: from the cache, else from the line, which mends the cache. */
export async function fileOf(event: ExtendableEvent, url: string): Promise<Response> {
  const cacheKey = controller.getCacheKeyForURL(url);
  const integrity = cacheKey && controller.getIntegrityForCacheKey(cacheKey);
  return controller.strategy.handle({ event, request: new Request(url), params: { cacheKey, integrity } });
}

/** The page, for every address of the app; never without the scripts that it names. */
export async function pageFor(event: FetchEvent): Promise<Response> {
  try {
    const [page] = await Promise.all(built.shell.first.map((url) => fileOf(event, url)));
    return page ?? (await fileOf(event, PAGE));
  } catch {
    // Neither kept nor brought by the line as this version knows it: the server's own page then, if it answers.
    return patient(event.request, MEND_PATIENCE_MS);
  }
}
