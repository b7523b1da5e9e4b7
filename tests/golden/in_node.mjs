// Runs the planner as it was built, under Node: node in_node.mjs APP_FOLDER ASKS.json > answers.json
// The files are the phone's own, and so is the way in; only the worker around them is missing.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [app, file] = process.argv.slice(2);
const list = JSON.parse(readFileSync(join(app, "planner", "planner.json"), "utf8"));

try {
  const { loadPyodide } = await import(pathToFileURL(join(app, list.runtime, "pyodide.mjs")).href);
  const pyodide = await loadPyodide({
    indexURL: join(app, list.runtime),
    stdLibURL: join(app, list.library),
    lockFileContents: JSON.stringify(list.lock),
  });
  pyodide.FS.writeFile("/lib/engine.zip", readFileSync(join(app, list.engine)));
  pyodide.pyimport("sys").path.append("/lib/engine.zip");
  const version = pyodide.pyimport("pengan.engine.phone.warming").warm_up();
  const { answer } = pyodide.pyimport("pengan.engine.phone.answer");
  const { known } = pyodide.pyimport("pengan.engine.phone.known");
  const asks = JSON.parse(readFileSync(file, "utf8"));
  const told = ([document, night, effort, before]) => answer(document, night, effort, before ?? "");
  const answers = asks.map((ask) => (ask.length === 3 ? known(...ask) : told(ask)));
  process.stdout.write(JSON.stringify({ version, answers }));
} catch (fault) {
  process.stderr.write(`${fault.message}\n`);
  process.exitCode = 1;
}
