// Prints which files of Python's library are loaded once the engine has planned, as JSON:
//   node library.mjs PYODIDE_FOLDER ENGINE_ZIP SITE.json…
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [folder, zip, ...sites] = process.argv.slice(2);
const SCRIPT = `
import json, sys, traceback
sys.path.append("/engine.zip")
from pengan.engine.phone.answer import answer
from pengan.engine.phone.known import known
from pengan.engine.phone.warming import warm_up

warm_up()
for text in [*texts, '{"format": 1, "records": [{"table": "site", "id": "here", "zone": "Europe/Lisboa"}]}', "{"]:
    answer(text, "2026-10-24", 2)
for text in texts:
    known("suggestions", text, '{"night": "2026-10-24"}')
try:
    answer("{}", "no date", 1)
except ValueError:
    traceback.format_exc()
library = next(path for path in sys.path if path.endswith(".zip") and path.startswith("/lib/python")) + "/"
files = {getattr(module, "__file__", None) or "" for module in list(sys.modules.values())}
json.dumps(sorted(file.removeprefix(library) for file in files if file.startswith(library)))
`;

try {
  const { loadPyodide } = await import(pathToFileURL(join(folder, "pyodide.mjs")).href);
  const pyodide = await loadPyodide({ indexURL: `${folder}/` });
  pyodide.FS.writeFile("/engine.zip", readFileSync(zip));
  pyodide.globals.set("texts", pyodide.toPy(sites.map((site) => readFileSync(site, "utf8"))));
  process.stdout.write(pyodide.runPython(SCRIPT));
} catch (fault) {
  process.stderr.write(`${fault.message}\n`);
  process.exitCode = 1;
}
