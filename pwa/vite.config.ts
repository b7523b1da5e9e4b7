import { defineConfig } from "vite";
import { isOfFirstScreen } from "./build/first-screen.ts";
import { cutFonts } from "./build/fonts.ts";
import { firstHints } from "./build/hints.ts";
import { offlineWorker } from "./build/offline.ts";
import { plannerFiles } from "./build/planner/plugin.ts";

// The page is built into the Python package, where Flask serves it from `web/app`.
export default defineConfig({
  base: "/",
  // The worker comes last: it lists every other file.
  plugins: [cutFonts(), firstHints(), plannerFiles(), offlineWorker()],
  build: {
    outDir: "../server/pengan/web/app",
    emptyOutDir: true,
    target: ["es2022", "safari16.4", "chrome109", "firefox115"],
    // The page's policy allows no `data:` scripts or styles, so nothing is inlined.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: "first", test: isOfFirstScreen }] } } },
  },
  worker: { format: "es" },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  server: { host: "127.0.0.1", proxy: { "/api": "http://127.0.0.1:8000" } },
});
