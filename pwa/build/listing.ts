/** Which built file is kept by the phone as what: shell, or languages. The planner keeps a list of its own. */

import { createHash } from "node:crypto";
import type { BuiltFiles, KeptFile } from "../src/wire/shell";

/** The language of each file that holds a catalogue, by the file's address. */
export type Catalogues = Map<string, string>;

type Content = Map<string, Uint8Array>;

/** Made-up languages for tests are fetched when somebody reads them, and not kept. */
const MADE_UP = /-X[AB]$/;
/** The workers themselves, the planner's own, files packed for the line, and what reads QR codes: that needs signal. */
const LEFT_OUT =
  /^\/(?:service-worker[^/]*\.js|planner\/.*|assets\/(?:zxing_reader|ponyfill)-[^/]*|.*\.(?:gz|br|zst|map))$/;
const HASHED = /^\/assets\//;
/** Letters that few pages need: they are kept with the languages. */
const LETTERS: readonly (readonly [RegExp, string])[] = [
  [/\/vazirmatn-arabic/, "ar"],
  [/-(?:latin-ext|cyrillic|greek)-wght/, ""],
];

export function listFiles(content: Content, catalogues: Catalogues): BuiltFiles {
  const kept = [...content.keys()].filter((url) => !LEFT_OUT.test(url) && !MADE_UP.test(catalogues.get(url) ?? ""));
  const languages = kept.flatMap((url) => {
    const language = languageOf(url, catalogues);
    return language === null ? [] : [{ ...entry(url, content), language }];
  });
  const shell = kept.filter((url) => languageOf(url, catalogues) === null).map((url) => entry(url, content));
  return {
    shell: { version: version(shell), files: shell, first: firstFiles(content) },
    languages: { version: version(languages), files: languages },
  };
}

/** Null: it is part of the shell. */
function languageOf(url: string, catalogues: Catalogues): string | null {
  return catalogues.get(url) ?? LETTERS.find(([pattern]) => pattern.test(url))?.[1] ?? null;
}

function entry(url: string, content: Content): KeptFile {
  const bytes = content.get(url) ?? new Uint8Array();
  const integrity = `sha384-${createHash("sha384").update(bytes).digest("base64")}`;
  return { url, revision: HASHED.test(url) ? null : short(integrity), integrity };
}

function version(files: KeptFile[]): string {
  return short(JSON.stringify(files.map(({ url, integrity }) => [url, integrity])));
}

function short(text: string): string {
  return createHash("sha256").update(text).digest("hex").slice(0, 12);
}

/** The page, and what it names itself. */
function firstFiles(content: Content): string[] {
  const html = new TextDecoder().decode(content.get("/index.html"));
  const named = [...html.matchAll(/(?:src|href)="(\/assets\/[^"]+\.(?:js|css))"/g)].map((found) => found[1] ?? "");
  return ["/index.html", ...named];
}
