/** The planner's files: Python, its library and the engine, named by their content, compressed, and listed. */

import { createHash } from "node:crypto";
import { mkdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join, resolve } from "node:path";
import type { Plugin } from "vite";
import type { PlannerList } from "../../src/wire/planning";
import { packPython } from "./packing.ts";
import { press } from "./pressing.ts";
import { dropUnused } from "./whole.ts";

/** Pyodide finds its own files by these names, so the folder's name stands for their content. */
const RUNTIME = ["pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm"] as const;
const FOLDER = "planner";
const LEAST_WORTH_PRESSING = 1000;

type Files = Map<string, Uint8Array>;

export function plannerFiles(): Plugin {
  let root = "";
  return {
    name: "pengan-planner",
    apply: "build",
    configResolved(config) {
      root = config.root;
    },
    async generateBundle() {
      const generated = resolve(root, "generated", FOLDER);
      const { files, list } = await gather(generated);
      const pressed = await pressAll(files, join(generated, "pressed"));
      const text = Buffer.from(`${JSON.stringify(list, null, 1)}\n`);
      const all = new Map([...files, ...pressed, [`${FOLDER}/planner.json`, text]]);
      for (const [fileName, source] of all) this.emitFile({ type: "asset", fileName, source });
      this.info(`the planner: ${sizes(files, pressed)}`);
    },
  };
}

async function gather(generated: string): Promise<{ files: Files; list: PlannerList }> {
  const home = dirname(createRequire(import.meta.url).resolve("pyodide/package.json"));
  const packed = await packPython(home, join(generated, "engine.zip"), keptIn(generated, "packed"));
  const runtime = RUNTIME.map((name) => [name, readFileSync(join(home, name))] as const);
  const place = `${FOLDER}/pyodide-${seal(runtime.map(([, bytes]) => bytes))}`;
  const library = `${FOLDER}/library-${seal([packed.library])}.zip`;
  const engine = `${FOLDER}/engine-${seal([packed.engine])}.zip`;
  const files: Files = new Map(runtime.map(([name, bytes]) => [`${place}/${name}`, bytes]));
  files.set(library, packed.library).set(engine, packed.engine);
  const lock = { info: lockInfo(home), packages: {} };
  return { files, list: listed(files, { runtime: `/${place}/`, library: `/${library}`, engine: `/${engine}`, lock }) };
}

function lockInfo(home: string): PlannerList["lock"]["info"] {
  return (JSON.parse(readFileSync(join(home, "pyodide-lock.json"), "utf8")) as PlannerList["lock"]).info;
}

function keptIn(generated: string, name: string): string {
  const folder = join(generated, name);
  mkdirSync(folder, { recursive: true });
  dropUnused(folder);
  return folder;
}

function listed(files: Files, parts: Omit<PlannerList, "version" | "files">): PlannerList {
  const entries = [...files].map(([name, bytes]) => ({
    url: `/${name}`,
    bytes: bytes.length,
    revision: null,
    integrity: `sha384-${createHash("sha384").update(bytes).digest("base64")}`,
  }));
  return { version: seal([...files.values()]), ...parts, files: entries };
}

async function pressAll(files: Files, kept: string): Promise<Files> {
  mkdirSync(kept, { recursive: true });
  dropUnused(kept);
  const worth = [...files].filter(([, bytes]) => bytes.length >= LEAST_WORTH_PRESSING);
  const pressed = await Promise.all(
    worth.map(async ([name, bytes]) => {
      const { br, gz } = await press(bytes, kept);
      return [[`${name}.br`, br] as const, [`${name}.gz`, gz] as const];
    }),
  );
  return new Map(pressed.flat());
}

function sizes(files: Files, pressed: Files): string {
  const total = (ending: string) =>
    [...files.keys()].reduce((sum, name) => sum + (pressed.get(`${name}${ending}`)?.length ?? 0), 0);
  return `${(total(".br") / 1e6).toFixed(2)} MB by Brotli, ${(total(".gz") / 1e6).toFixed(2)} MB by gzip`;
}

function seal(parts: Uint8Array[]): string {
  const whole = createHash("sha256");
  for (const part of parts) whole.update(createHash("sha256").update(part).digest());
  return whole.digest("hex").slice(0, 12);
}
