/** Lists every built file for the service worker, and builds the worker around the list: last, when all is written. */

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { build, type Plugin } from "vite";
import type { BuiltFiles } from "../src/wire/shell";
import { type Catalogues, listFiles } from "./listing.ts";
import { press } from "./planner/pressing.ts";
import { dropUnused } from "./planner/whole.ts";

const CATALOGUE = /\/generated\/catalogues\/([^/]+?)(?:\.first)?\.json$/;
const TEXT = /^\/(?!planner\/).*\.(?:css|html|js|svg|webmanifest)$/;
const LEAST_WORTH_PRESSING = 1000;
/** The worker, and what stands in its place while the server has the app switched off. */
const WORKERS = { "service-worker": "worker.ts", "service-worker-off": "off.ts" } as const;

export function offlineWorker(): Plugin {
  let folder = "";
  let keptPressed = "";
  let written = false;
  const catalogues: Catalogues = new Map();
  return {
    name: "pengan-offline",
    apply: "build",
    enforce: "post",
    configResolved(config) {
      folder = resolve(config.root, config.build.outDir);
      keptPressed = resolve(config.root, "generated", "pressed");
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
        await pressAll(folder, keptPressed);
      },
    },
  };
}

function readAll(folder: string): Map<string, Buffer> {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const paths = entries.map((entry) => join(entry.parentPath, entry.name)).sort();
  return new Map(paths.map((path) => [`/${relative(folder, path).replaceAll("\\", "/")}`, readFileSync(path)]));
}

/** Compressed for the line beside the plain files, as the planner's are. */
async function pressAll(folder: string, kept: string): Promise<void> {
  mkdirSync(kept, { recursive: true });
  dropUnused(kept);
  const texts = [...readAll(folder)].filter(([url, bytes]) => TEXT.test(url) && bytes.length >= LEAST_WORTH_PRESSING);
  await Promise.all(
    texts.map(async ([url, bytes]) => {
      const { br, gz } = await press(bytes, kept);
      writeFileSync(`${folder}${url}.br`, br);
      writeFileSync(`${folder}${url}.gz`, gz);
    }),
  );
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
