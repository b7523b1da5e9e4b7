/** Keeps a list of files, one by one: what is there stays, what another version holds is taken over, the rest fetched. */

import type { KeptFile } from "../wire/shell";
import { findKept } from "./caches";
import { patient } from "./fetching";

const FILE_PATIENCE_MS = 60_000;

export type Wanted = Pick<KeptFile, "url"> & Partial<KeptFile>;

/** Raises where the line breaks, where a file is not the one that was listed, and where there is no room. */
export async function keepFiles(name: string, files: readonly Wanted[], signal: AbortSignal, step: () => void) {
  const cache = await caches.open(name);
  for (const file of files) {
    signal.throwIfAborted();
    if (await cache.match(file.url)) continue;
    await cache.put(file.url, await bring(file, signal));
    step();
  }
}

async function bring(file: Wanted, signal: AbortSignal): Promise<Response> {
  const kept = file.revision === null ? await findKept(file.url) : undefined;
  if (kept) return kept;
  const options: RequestInit = { signal, cache: file.revision === null ? "default" : "reload" };
  if (file.integrity) options.integrity = file.integrity;
  const answer = await patient(file.url, FILE_PATIENCE_MS, options);
  if (!answer.ok || answer.redirected) throw new TypeError(`${file.url}: ${answer.status}`);
  return answer;
}

export async function countFiles(name: string, files: readonly Wanted[]): Promise<{ have: number; of: number }> {
  const cache = await caches.open(name);
  const found = await Promise.all(files.map((file) => cache.match(file.url)));
  return { have: found.filter(Boolean).length, of: files.length };
}
