/** Bundles the page's client with the bundler that builds the page, runs it, and writes what came of it to `told.json`. */

import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const require = createRequire(join(here, "../../pwa/package.json"));
const { rolldown } = await import(pathToFileURL(require.resolve("rolldown")).href);
const [given, folder] = [JSON.parse(process.argv[2]), process.argv[3]];

const bundle = await rolldown({
  input: join(here, "page_client.ts"),
  platform: "node",
  resolve: { modules: [join(here, "../../pwa/node_modules")] },
});
const file = join(folder, "client.mjs");
await bundle.write({ file, format: "esm", codeSplitting: false });
const { run } = await import(pathToFileURL(file).href);
writeFileSync(join(folder, "told.json"), JSON.stringify(await run(given)));
process.exit(0);
