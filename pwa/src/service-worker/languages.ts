/** The languages: the reader's comes with the shell, the others after it, so that switching works without signal. */

import { built } from "./built";
import { cacheName, readLedger } from "./caches";
import { countFiles, keepFiles } from "./keeping";

const NAME = cacheName("languages", built.languages.version);
const FALLBACK = "en";

/** What a page of this version has to have at once: the language it was last read in, or the device's. */
export async function keepReaders(signal: AbortSignal): Promise<void> {
  const { language } = await readLedger();
  const wishes = language ? [language] : [...navigator.languages];
  const tags = new Set([FALLBACK, ...wishes.map((wish) => nearest(wish))]);
  await keepFiles(
    NAME,
    built.languages.files.filter((file) => tags.has(file.language)),
    signal,
    () => {},
  );
}

function nearest(wish: string): string {
  const known = built.languages.files.map((file) => file.language);
  return known.includes(wish) ? wish : (wish.split("-")[0] ?? FALLBACK);
}

export async function keepLanguages(language: string, signal: AbortSignal, step: () => void): Promise<void> {
  const first = built.languages.files.filter((file) => file.language === language);
  await keepFiles(NAME, [...first, ...built.languages.files], signal, step);
}

export function countLanguages(): Promise<{ have: number; of: number }> {
  return countFiles(NAME, built.languages.files);
}
