/** Compresses the planner's files for the line, once: the largest takes Brotli half a minute. */

import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";
import { markUsed, writeWhole } from "./whole.ts";

/** A phone needs a window of so many bits to unpack (4 MB). */
const WINDOW_BITS = 22;
const LARGE = 4_000_000;
/** On the largest file the last step of Brotli takes twice as long for one hundredth less. */
const [QUALITY, QUALITY_LARGE] = [11, 10];

const CODINGS = { br: toBrotli, gz: (bytes: Uint8Array) => promisify(gzip)(bytes, { level: 9 }) } as const;

export type Coding = keyof typeof CODINGS;

/** The bytes in each coding that a browser may ask for. What was compressed before is read from `kept`. */
export async function press(bytes: Uint8Array, kept: string): Promise<Record<Coding, Uint8Array>> {
  const [br, gz] = await Promise.all([once("br", bytes, kept), once("gz", bytes, kept)]);
  return { br, gz };
}

async function once(coding: Coding, bytes: Uint8Array, kept: string): Promise<Uint8Array> {
  const path = join(kept, `${createHash("sha256").update(bytes).digest("hex").slice(0, 16)}.${coding}`);
  if (!existsSync(path)) writeWhole(path, await CODINGS[coding](bytes));
  markUsed(path);
  return readFileSync(path);
}

function toBrotli(bytes: Uint8Array): Promise<Uint8Array> {
  return promisify(brotliCompress)(bytes, {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: bytes.length > LARGE ? QUALITY_LARGE : QUALITY,
      [constants.BROTLI_PARAM_LGWIN]: WINDOW_BITS,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
    },
  });
}
