/** Joining codes as people type, read out and scan them: ten signs in two groups, `PF4RG-9KTDM`. */

import { plainDigits } from "../words/numbers";

/** The server's own signs (`people/codes.py`): none looks or sounds much like another, and there are no vowels. */
const ALPHABET = "34679CDFGHJKMNPRTVWXY";
const LENGTH = 10;
const GROUP = 5;

/** What is easily taken for one of the signs, where that sign is the only one it can be. */
const LOOK_ALIKES: Readonly<Record<string, string>> = {
  "0": "D",
  O: "D",
  Q: "D",
  A: "4",
  E: "F",
  U: "V",
  Z: "7",
  "2": "7",
  // Cyrillic and Greek letters of the same shape, from a keyboard that was left in that script.
  С: "C",
  Н: "H",
  К: "K",
  Κ: "K",
  М: "M",
  Μ: "M",
  Ν: "N",
  Р: "P",
  Ρ: "P",
  Т: "T",
  Τ: "T",
  Х: "X",
  Χ: "X",
  У: "Y",
  Υ: "Y",
  З: "3",
};

export interface TypedCode {
  /** As it is shown while it grows. */
  grouped: string;
  /** As the server takes it; null while signs are missing or too many. */
  whole: string | null;
  /** Signs that are in no code, once each, as they were typed. */
  strange: string[];
}

/** Case, spaces, hyphens, full-width and other scripts' signs do not matter; an address counts from its `#`. */
export function typedCode(text: string): TypedCode {
  const signs = [...plainDigits(afterHash(text).normalize("NFKC")).toUpperCase()]
    .filter((sign) => !/[\s\-–—_.·]|\p{Cf}/u.test(sign))
    .map((sign) => LOOK_ALIKES[sign] ?? sign);
  const grouped = group(signs.join(""));
  const strange = [...new Set(signs.filter((sign) => !ALPHABET.includes(sign)))];
  const whole = signs.length === LENGTH && strange.length === 0 ? grouped : null;
  return { grouped, whole, strange };
}

/** How many signs of the whole there are. */
export function signsIn(typed: TypedCode): number {
  return typed.grouped.replaceAll("-", "").length;
}

/** The code in what a camera read: an address of ours, or the bare code. Null: it is something else. */
export function scannedCode(text: string): string | null {
  const bare = text.includes("#") ? /\/join\/?#([^#]+)$/.exec(text)?.[1] : text;
  return bare === undefined ? null : typedCode(bare).whole;
}

function afterHash(text: string): string {
  return text.slice(text.lastIndexOf("#") + 1);
}

function group(signs: string): string {
  const groups = [];
  for (let start = 0; start < signs.length; start += GROUP) groups.push(signs.slice(start, start + GROUP));
  return groups.join("-");
}
