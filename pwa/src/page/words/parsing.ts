/** Amounts and lengths of time as people type them, in any of the languages' spellings. The server reads the same way. */

import spellings from "../../../generated/spellings.json";
import { asNumber, readFigure, WordsFault } from "./numbers";
import { units } from "./reader";
import { shownUnit, symbol, type Unit, unitsOf } from "./units";

const SPELLED = spellings as unknown as Record<string, Record<string, string | number>>;

const FIGURE_THEN_UNIT = /^([+\-−–\p{Nd}.,٫٬'’\s\u00a0\u2009\u202f]*)([\s\S]*)$/u;

/** What somebody typed, in base units. A bare figure is in `bare`, or in the reader's own unit. Raises `WordsFault`. */
export function readAmount(quantity: string, text: string, bare: Unit = shownUnit(quantity, 0)): number {
  const [, figure = text, named = ""] = FIGURE_THEN_UNIT.exec(text.trim()) ?? [];
  const unit = named.trim() ? namedUnit(quantity, named, text) : bare;
  const { digits, places } = readFigure(figure);
  const [top = 1, bottom = 1] = unit.factor;
  const [offsetTop = 0, offsetBottom = 1] = unit.offset;
  return (digits * top) / (bottom * 10 ** places) + offsetTop / offsetBottom;
}

function namedUnit(quantity: string, named: string, text: string): Unit {
  const all = unitsOf(quantity);
  const found = all[ownGallon(SPELLED[quantity]?.[folded(named)] as string | undefined, named) ?? ""];
  if (found) return found;
  const known = Object.values(all).map(symbol).join(", ");
  throw new WordsFault({ code: "words.unknown_unit", params: { text: text.trim(), units: known } });
}

/** Plain gallons are imperial to an imperial reader. */
function ownGallon(key: string | undefined, named: string): string | undefined {
  const gallons = key === "gpm" || key === "gal";
  return gallons && units.value === "imperial" && !folded(named).includes("us") ? `i${key}` : key;
}

/** Text as it is compared: no case, no accents, no spaces or dots, ³ as 3. */
export function folded(text: string): string {
  return text
    .toLowerCase()
    .replace(/ß/g, "ss")
    .normalize("NFKD")
    .replace(/[\p{M} .\u00a0\u202f·]/gu, "");
}

const COLONS = /^(\p{Nd}{1,3}):(\p{Nd}{2})(?::(\p{Nd}{2}))?$/u;
const PART = /^([\p{Nd}.,٫]+)\s*([^\p{Nd}\s.,٫]*)\.?\s*/u;
const LARGEST_S = 366 * 86_400;

/**
 * Whole seconds out of `1 h 20`, `1h20m`, `0:48` (hours:minutes), `1:20:30` or `1,5 h`. A bare number alone counts
 * `bare` seconds; after hours it is minutes, after minutes seconds. Raises `WordsFault`.
 */
export function readDuration(text: string, bare = 60): number {
  const plain = text.trim();
  const colons = COLONS.exec(plain);
  const seconds = colons ? ofColons(colons) : ofParts(plain, bare);
  if (seconds === null || !isWhole(seconds) || seconds > LARGEST_S) {
    throw new WordsFault({ code: "words.not_a_duration", params: { text: plain } });
  }
  return Math.round(seconds);
}

/** Whole but for what binary fractions lose: 0.1 h is 360 s. */
function isWhole(seconds: number): boolean {
  return Math.abs(seconds - Math.round(seconds)) < 1e-6;
}

function ofColons(match: RegExpExecArray): number | null {
  const [hours = 0, minutes = 0, seconds = 0] = match.slice(1).map((part) => (part ? asNumber(readFigure(part)) : 0));
  return minutes > 59 || seconds > 59 ? null : hours * 3600 + minutes * 60 + seconds;
}

function ofParts(text: string, bare: number): number | null {
  let rest = text;
  let total = 0;
  let last = 0;
  while (rest) {
    const part = PART.exec(rest);
    const size = part ? sizeOf(part[2] ?? "", last, bare) : null;
    if (!part || size === null || (last && size >= last)) return null;
    total += asNumber(readFigure(part[1] ?? "")) * size;
    rest = rest.slice(part[0].length);
    last = size;
  }
  return last ? total : null;
}

function sizeOf(named: string, last: number, bare: number): number | null {
  if (!named) return last > 1 ? last / 60 : last ? null : bare;
  const size = SPELLED.duration?.[folded(named)];
  return typeof size === "number" ? size : null;
}
