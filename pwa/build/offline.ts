/** Lists every built file for the service worker, and builds the worker around the list: last, when all is written. */

import { readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { build, type Plugin } from "vite";
import type { BuiltFiles } from "../src/wire/shell";
import { type Catalogues, listFiles } from "./listing.ts";

const CATALOGUE = /\/generated\/catalogues\/([^/]+)\.json$/;
/** The worker, and what stands in its place while the server has the app switched off. */
const WORKERS = { "service-worker": "worker.ts", "service-worker-off": "off.ts" } as const;

export function offlineWorker(): Plugin {
  let folder = "";
  let written = false;
  const catalogues: Catalogues = new Map();
  return {
    name: "pengan-offline",
    apply: "build",
    enforce: "post",
    configResolved(config) {
      folder = resolve(config.root, config.build.outDir);
    },
    writeBundle(_, bundle) {
      written = true;
      for (const piece of Object.values(bundle)) {
        const tag = piece.type === "chunk" ? CATALOGUE.exec(piece.facadeModuleId ?? "")?.[1] : undefined;
        if (tag) catalogues.set(`/${piece.fileName}`, tag);
      }
    },
    closeBundle: {
      order: "post",
      sequential: true,
      async handler() {
        // A build that failed ends here as well.
        if (!written) return;
        const files = listFiles(readAll(folder), catalogues);
        for (const [name, source] of Object.entries(WORKERS)) await buildWorker(folder, name, source, files);
      },
    },
  };
}

function readAll(folder: string): Map<string, Buffer> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const paths = entries.map((entry) => join(entry.parentPath, entry.name)).sort();
  return new Map(paths.map((path) => [`/${relative(folder, path).replaceAll("\\", "/")}`, readFileSync(path)]));
}

/** A classic script in one piece: that is what every browser takes as a service worker. */
async function buildWorker(folder: string, name: string, source: string, files: BuiltFiles): Promise<void> {
  await build({
    configFile: false,
    publicDir: false,
    logLevel: "warn",
    define: { BUILT_FILES: JSON.stringify(files), "process.env.NODE_ENV": '"production"' },
    build: {
      outDir: folder,
      emptyOutDir: false,
      copyPublicDir: false,
      target: ["es2022", "safari16.4"],
      lib: {
        entry: resolve("src/service-worker", source),
        formats: ["iife"],
        name: "worker",
        fileName: () => `${name}.js`,
      },
    },
  });
}
