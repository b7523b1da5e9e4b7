import { expect, test } from "vitest";
import { listFiles } from "./listing.ts";

const text = (content: string) => new TextEncoder().encode(content);
const HTML = '<script src="/assets/start-12345678.js"></script><link href="/assets/look-12345678.css">';

function content(changes: Record<string, string> = {}): Map<string, Uint8Array> {
  const files = {
    "/index.html": HTML,
    "/assets/start-12345678.js": "start()",
    "/assets/look-12345678.css": "a{}",
    "/assets/es-12345678.js": "es",
    "/assets/en-XA-12345678.js": "xa",
    "/assets/vazirmatn-arabic-wght-normal-12345678.woff2": "letters",
    "/planner/planner.json": "{}",
    "/assets/start-12345678.js.br": "packed",
    "/service-worker.js": "old",
    ...changes,
  };
  return new Map(Object.entries(files).map(([url, body]) => [url, text(body)]));
}

const CATALOGUES = new Map([
  ["/assets/es-12345678.js", "es"],
  ["/assets/en-XA-12345678.js", "en-XA"],
]);

test("files are the shell's or a language's; the planner, the workers and packed files are left out", () => {
  const { shell, languages } = listFiles(content(), CATALOGUES);
  expect(shell.files.map((file) => file.url)).toEqual([
    "/index.html",
    "/assets/start-12345678.js",
    "/assets/look-12345678.css",
  ]);
  expect(languages.files.map((file) => [file.url, file.language])).toEqual([
    ["/assets/es-12345678.js", "es"],
    ["/assets/vazirmatn-arabic-wght-normal-12345678.woff2", "ar"],
  ]);
});

test("the page comes first with the scripts and looks that it names", () => {
  const { shell } = listFiles(content(), CATALOGUES);
  expect(shell.first).toEqual(["/index.html", "/assets/start-12345678.js", "/assets/look-12345678.css"]);
});

test("a change of any file is another version of its kind alone", () => {
  const before = listFiles(content(), CATALOGUES);
  const page = listFiles(content({ "/index.html": `${HTML} ` }), CATALOGUES);
  expect(page.shell.version).not.toBe(before.shell.version);
  expect(page.languages.version).toBe(before.languages.version);
  const words = listFiles(content({ "/assets/es-12345678.js": "es, better" }), CATALOGUES);
  expect(words.shell.version).toBe(before.shell.version);
  expect(words.languages.version).not.toBe(before.languages.version);
});

test("what keeps its name has a revision, what is named by its content has none; each has its sum", () => {
  const [page, script] = listFiles(content(), CATALOGUES).shell.files;
  expect(page?.revision).toMatch(/^[0-9a-f]{12}$/);
  expect(script?.revision).toBeNull();
  expect(script?.integrity).toMatch(/^sha384-.{64}$/);
});
