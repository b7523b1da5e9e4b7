// Under Node: processor seconds from an edit to its effect: node phone_effect.mjs APP_FOLDER WORDS.json
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [app, words] = process.argv.slice(2);
const [data, edited, night, effort, times] = JSON.parse(readFileSync(words, "utf8"));
const list = JSON.parse(readFileSync(join(app, "planner", "planner.json"), "utf8"));
const { loadPyodide } = await import(pathToFileURL(join(app, list.runtime, "pyodide.mjs")).href);
const pyodide = await loadPyodide({
  indexURL: join(app, list.runtime),
  stdLibURL: join(app, list.library),
  lockFileContents: JSON.stringify(list.lock),
});
pyodide.FS.writeFile("/lib/engine.zip", readFileSync(join(app, list.engine)));
pyodide.pyimport("sys").path.append("/lib/engine.zip");
pyodide.pyimport("pengan.engine.phone.warming").warm_up();
const { answer } = pyodide.pyimport("pengan.engine.phone.answer");
const plan = (document, before) =>
  JSON.parse(answer(JSON.stringify(document), night, effort, before ? JSON.stringify(before) : "").split("\n")[1]);
const before = plan(data, null);
const taken = [];
for (let time = 0; time < times; time += 1) {
  const began = process.cpuUsage();
  plan(edited, before);
  const used = process.cpuUsage(began);
  taken.push((used.user + used.system) / 1e6);
}
process.stdout.write(JSON.stringify(taken));
