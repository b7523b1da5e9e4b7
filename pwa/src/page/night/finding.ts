/** Finds stations and parts of the grounds by what people type: number, name or part, whatever the accents. */

import type { SiteDocument, Station } from "../site/document";

export interface Found {
  /** Parts of the grounds whose own name fits, in the document's order. */
  parts: string[];
  stations: Station[];
}

const ARABIC_DIGITS = /[\u0660-\u0669\u06f0-\u06f9]/g;
/** Letters that no decomposition takes apart, as people type them who lack the key. */
const PLAIN: Readonly<Record<string, string>> = {
  ß: "ss",
  æ: "ae",
  œ: "oe",
  ø: "o",
  đ: "d",
  ł: "l",
  ı: "i",
  þ: "th",
  ى: "ي",
  ة: "ه",
  ـ: "",
};
const APART = new RegExp(`[${Object.keys(PLAIN).join("")}]`, "g");

/** The text as it is compared: no case, no accents, Latin digits; Arabic without vowel signs and hamza. */
export function fold(text: string): string {
  return text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(ARABIC_DIGITS, (digit) => String((digit.codePointAt(0) ?? 0) & 0xf))
    .replace(APART, (letter) => PLAIN[letter] ?? letter)
    .trim();
}

interface Folded {
  station: Station;
  number: string;
  /** Number, name and part, each word after a blank. */
  whole: string;
}

const kept = new WeakMap<SiteDocument, Folded[]>();

function foldedOf(document: SiteDocument): Folded[] {
  const known = kept.get(document);
  if (known) return known;
  const made = [...document.stations.values()].map((station) => ({
    station,
    number: fold(station.number),
    whole: ` ${fold(`${station.number} ${station.name} ${station.part}`)}`,
  }));
  kept.set(document, made);
  return made;
}

/** Every word typed has to begin or stand in a word of the station. The number itself comes first, then word beginnings. */
export function find(document: SiteDocument, typed: string): Found {
  const words = fold(typed).split(/\s+/).filter(Boolean);
  if (words.length === 0) return { parts: [], stations: [] };
  const ranked = foldedOf(document)
    .filter(({ whole }) => words.every((word) => whole.includes(word)))
    .map((one, place) => ({ ...one, place, rank: rankOf(one, words) }));
  ranked.sort((a, b) => a.rank - b.rank || a.place - b.place);
  const fits = (part: string) => words.every((word) => ` ${fold(part)}`.includes(word));
  return { parts: partsOf(document).filter(fits), stations: ranked.map(({ station }) => station) };
}

function rankOf({ number, whole }: Folded, words: readonly string[]): number {
  const typed = words.join(" ");
  if (number === typed) return 0;
  if (number.startsWith(typed)) return 1;
  return words.every((word) => whole.includes(` ${word}`)) ? 2 : 3;
}

/** The parts of the grounds, in the document's order. */
export function partsOf(document: SiteDocument): string[] {
  return [...new Set([...document.stations.values()].map((station) => station.part))].filter(Boolean);
}
