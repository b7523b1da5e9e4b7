/** Packs what Python is made of on the phone: its library, trimmed, and the engine. Pyodide itself does it, in Node. */

import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { loadPyodide } from "pyodide";
import { writeWhole } from "./whole.ts";

export interface Packed {
  library: Uint8Array;
  engine: Uint8Array;
}

const PIECES = ["library", "engine"] as const;

/** `pyodide`: the package's folder; `engine`: the engine as gathered; `kept`: where packed files are kept. */
export async function packPython(pyodide: string, engine: string, kept: string): Promise<Packed> {
  const given = {
    "library.zip": readFileSync(join(pyodide, "python_stdlib.zip")),
    "library.txt": readFileSync(join(import.meta.dirname, "library.txt")),
    "engine.zip": gathered(engine),
  };
  const script = readFileSync(join(import.meta.dirname, "pack.py"), "utf8");
  const folder = join(kept, fingerprint([...Object.values(given), Buffer.from(script)]));
  if (!PIECES.every((piece) => existsSync(join(folder, `${piece}.zip`)))) await pack(pyodide, given, script, folder);
  const read = (piece: string) => readFileSync(join(folder, `${piece}.zip`));
  return { library: read("library"), engine: read("engine") };
}

function gathered(engine: string): Buffer {
  if (existsSync(engine)) return readFileSync(engine);
  throw new Error(`${engine} is missing: run \`python3 server\` once, or \`python -m ground.build\` in server/`);
}

async function pack(home: string, given: Record<string, Uint8Array>, script: string, folder: string): Promise<void> {
  const pyodide = await loadPyodide({ indexURL: home });
  for (const place of ["/given", "/made"]) pyodide.FS.mkdirTree(place);
  for (const [name, bytes] of Object.entries(given)) pyodide.FS.writeFile(`/given/${name}`, bytes);
  pyodide.runPython(script);
  mkdirSync(folder, { recursive: true });
  for (const piece of PIECES) writeWhole(join(folder, `${piece}.zip`), pyodide.FS.readFile(`/made/${piece}.zip`));
}

function fingerprint(parts: Uint8Array[]): string {
  const seal = createHash("sha256");
  for (const part of parts) seal.update(createHash("sha256").update(part).digest());
  return seal.digest("hex").slice(0, 16);
}
