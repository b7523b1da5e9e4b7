// Runs a Python script in Pyodide under Node, as the phone runs the engine:
//   node phone.mjs PYODIDE_FOLDER ENGINE_ZIP SCRIPT.py [WORD …] [-- FILE …]
// The zip is unpacked where Pyodide imports from; the script sees the words as sys.argv[1:], and what it prints is
// printed here. The files are copied in first, under /given/. Milliseconds until Python could start: the variable
// loaded_ms.
import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, zip, script, ...rest] = process.argv.slice(2);
const split = rest.includes("--") ? rest.indexOf("--") : rest.length;
const [words, files] = [rest.slice(0, split), rest.slice(split + 1)];
const bytes = (file) => new Uint8Array(readFileSync(file));

async function python() {
  const began = performance.now();
  const { loadPyodide } = await import(pathToFileURL(join(folder, "pyodide.mjs")).href);
  const pyodide = await loadPyodide({ indexURL: `${folder}/` });
  const site = pyodide.runPython("import site; site.getsitepackages()[0]");
  pyodide.unpackArchive(bytes(zip), "zip", { extractDir: site });
  pyodide.globals.set("loaded_ms", performance.now() - began);
  return pyodide;
}

try {
  const pyodide = await python();
  const out = [];
  pyodide.FS.mkdirTree("/given");
  for (const file of files) pyodide.FS.writeFile(`/given/${basename(file)}`, bytes(file));
  pyodide.setStdout({ batched: (line) => out.push(line) });
  pyodide.globals.set("words", pyodide.toPy([basename(script), ...words]));
  pyodide.runPython("import sys; sys.argv = list(words)");
  pyodide.runPython(readFileSync(script, "utf8"), { filename: basename(script) });
  process.stdout.write(`${out.join("\n")}\n`);
} catch (fault) {
  // Node would print the whole of Pyodide's one-line source beside an uncaught fault.
  process.stderr.write(`${fault.message}\n`);
  process.exitCode = 1;
}
