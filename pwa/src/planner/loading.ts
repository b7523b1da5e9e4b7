/** From the planner's files to an engine that is warm. */

import type { loadPyodide as Load, PyodideAPI } from "pyodide";
import type { PlannerList } from "../wire/planning";
import { countFetches, LineBroke, type Told } from "./counting";

export interface Engine {
  version: string;
  /** See `pengan/engine/phone/answer.py`. Raises what Python raises. */
  answer(document: string, night: string, effort: number, before: string): string;
  /** See `pengan/engine/phone/known.py`. Raises what Python raises. */
  known(about: string, document: string, given: string): string;
}

const ENGINE_PATH = "/lib/engine.zip";

export async function loadEngine(list: PlannerList, told: Told): Promise<Engine> {
  const counted = countFetches(list.files, told);
  try {
    const [pyodide, engine] = await Promise.race([counted.broken, loadBoth(list)]);
    return openEngine(pyodide, engine);
  } finally {
    counted.end();
  }
}

function loadBoth(list: PlannerList): Promise<[PyodideAPI, Uint8Array]> {
  return Promise.all([loadPython(list), bytesOf(list.engine)]);
}

async function loadPython({ runtime, library, lock }: PlannerList): Promise<PyodideAPI> {
  // Pyodide imports the second of them itself, later and one after the other.
  const scripts = ["pyodide.mjs", "pyodide.asm.mjs"].map((name) => import(/* @vite-ignore */ runtime + name));
  const [{ loadPyodide }] = (await Promise.all(scripts).catch((error) => {
    throw new LineBroke(String(error));
  })) as [{ loadPyodide: typeof Load }];
  return loadPyodide({
    indexURL: new URL(runtime, location.href).href,
    stdLibURL: new URL(library, location.href).href,
    lockFileContents: JSON.stringify(lock),
  });
}

async function bytesOf(url: string): Promise<Uint8Array> {
  return new Uint8Array(await (await fetch(url)).arrayBuffer());
}

function openEngine(pyodide: PyodideAPI, archive: Uint8Array): Engine {
  pyodide.FS.writeFile(ENGINE_PATH, archive);
  pyodide.pyimport("sys").path.append(ENGINE_PATH);
  const { warm_up } = pyodide.pyimport("pengan.engine.phone.warming");
  const { answer } = pyodide.pyimport("pengan.engine.phone.answer");
  const { known } = pyodide.pyimport("pengan.engine.phone.known");
  return { version: warm_up(), answer, known };
}
