/** Files that are there whole or not at all, and the folders of such files that nobody needs any more. */

import { mkdirSync, readdirSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

const UNUSED_MS = 24 * 3600 * 1000;

/** Two builds may run at once; neither reads the half of a file. */
export function writeWhole(path: string, content: Uint8Array): void {
  mkdirSync(dirname(path), { recursive: true });
  const fresh = `${path}.${process.pid}`;
  writeFileSync(fresh, content);
  renameSync(fresh, path);
}

export function markUsed(path: string): void {
  const now = new Date();
  utimesSync(path, now, now);
}

/** Lets go of what no build has used for a day. */
export function dropUnused(folder: string): void {
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    if (Date.now() - statSync(path).mtimeMs > UNUSED_MS) rmSync(path, { recursive: true, force: true });
  }
}
