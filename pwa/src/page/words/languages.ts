/** The languages the page was built with, each a file of its own that is only fetched when somebody reads it. */

import { effect } from "@preact/signals";
import { type Catalogue, catalogue } from "./catalogue";
import { language } from "./reader";

const FOLDER = "../../../generated/catalogues/";
/** Of each language two files: the first screen's sentences, and all of them. */
const files = import.meta.glob<Catalogue>(
  ["../../../generated/catalogues/*.json", "!../../../generated/catalogues/units.json"],
  { import: "default" },
);
const FIRST = ".first";
/** The night is drawn within it. */
const DRAWN_MS = 1500;

/** Tags of all languages, English first. The made-up ones, for tests, come last. */
export const known: readonly string[] = Object.keys(files)
  .map((path) => path.slice(FOLDER.length, -".json".length))
  .filter((name) => !name.endsWith(FIRST))
  .sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));

/** Languages people choose among; the made-up ones are reached by the page's address. */
export const offered: readonly string[] = known.filter((tag) => rank(tag) < 2);

function rank(tag: string): number {
  if (tag === "en") return 0;
  return /-X[AB]$/.test(tag) ? 2 : 1;
}

/** A language as its own speakers write it. */
export function ownName(tag: string): string {
  const name = new Intl.DisplayNames([tag], { type: "language" }).of(tag) ?? tag;
  return name.charAt(0).toLocaleUpperCase(tag) + name.slice(1);
}

/** Load a language's sentences, and let the page run in its direction. */
export async function read(tag: string): Promise<void> {
  catalogue.value = await sentencesOf(tag);
}

/** Load what the first screen says, which is a small part of a language. */
export async function readFirst(tag: string): Promise<void> {
  catalogue.value = await sentencesOf(tag + FIRST);
}

/** All that the language has, once the first screen stands. Every other room asks for it again before it opens. */
export function readRest(): void {
  setTimeout(() => void read(language.peek()).catch(() => undefined), DRAWN_MS);
}

async function sentencesOf(name: string): Promise<Catalogue> {
  const load = files[`${FOLDER}${name}.json`];
  if (!load) throw new Error(`no catalogue for ${name}`);
  return await load();
}

/** Follow the reader's language from now on. */
export function followLanguage(): void {
  effect(() => {
    if (catalogue.peek().language !== language.value || catalogue.peek().name === "") void read(language.value);
  });
  effect(() => {
    document.documentElement.lang = catalogue.value.language;
    document.documentElement.dir = catalogue.value.direction;
  });
}
