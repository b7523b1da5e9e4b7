/** Plain numbers as people type them: decimal commas and points, grouping, every script's digits. As the server reads. */

import { numberFormat } from "./formats";
import type { Message } from "./say";

/** Something typed cannot be understood. It says what, in no language yet. */
export class WordsFault extends Error {
  constructor(readonly words: Message) {
    super(words.code);
  }
}

/** A decimal number, exactly: `digits / 10 ** places`. */
export interface Decimal {
  digits: number;
  places: number;
}

const SPACES = /[ \u00a0\u2009\u202f'’٬\p{Cf}]/gu;
const PLAIN = /^[+-]?(\d+([.,]\d*)*|[.,]\d+)$/;
const NOT_A_NUMBER = "words.not_a_number";

/**
 * The number somebody typed. A lone `.` or `,` is the decimal sign, unless it is the reader's grouping sign and three
 * digits follow: `1.250` is 1250 to a Spanish reader and 1.25 to an English one. Raises `WordsFault`.
 */
export function readFigure(text: string): Decimal {
  const plain = plainDigits(text.trim().replace(/[−–]/g, "-").replace(/٫/g, ",").replace(SPACES, ""));
  const parts = PLAIN.test(plain) ? split(plain) : null;
  if (!parts) throw new WordsFault({ code: NOT_A_NUMBER, params: { text: text.trim() } });
  return { digits: Number(`${parts[0] || "0"}${parts[1]}`), places: parts[1].length };
}

export function asNumber({ digits, places }: Decimal): number {
  return digits / 10 ** places;
}

/** Every script's digits as 0 to 9. Unicode keeps each script's ten digits in a row. */
export function plainDigits(text: string): string {
  return text.replace(/\p{Nd}/gu, (digit) => String(digitValue(digit.codePointAt(0) ?? 0)));
}

const MATHEMATICAL_ZERO = 0x1d7ce;
const MATHEMATICAL_LAST = 0x1d7ff;

function digitValue(point: number): number {
  if (point >= MATHEMATICAL_ZERO && point <= MATHEMATICAL_LAST) return (point - MATHEMATICAL_ZERO) % 10;
  let value = 0;
  while (value < 9 && /\p{Nd}/u.test(String.fromCodePoint(point - value - 1))) value += 1;
  return value;
}

/** Whole digits (with sign) and decimal digits; null where the marks make no sense. */
function split(plain: string): [string, string] | null {
  const marks = [...plain].filter((mark) => mark === "." || mark === ",");
  const last = marks[marks.length - 1];
  if (last === undefined) return [plain, ""];
  const groups = plain.split(last);
  if (new Set(marks).size === 1 && isGrouped(groups, last)) return [groups.join(""), ""];
  const head = plain.slice(0, plain.lastIndexOf(last));
  const part = plain.slice(plain.lastIndexOf(last) + 1);
  if (head.includes(last) || !groupsHold(head)) return null;
  return [/^[+-]?$/.test(head) ? `${head}0` : head.replace(/[.,]/g, ""), part];
}

/** Whether a mark, the only kind in the text, groups thousands. */
function isGrouped(groups: readonly string[], mark: string): boolean {
  const first = (groups[0] ?? "").replace(/^[+-]/, "").length;
  if (!groups.slice(1).every((group) => group.length === 3) || first < 1 || first > 3) return false;
  const { group, decimal } = signs();
  return groups.length > 2 || (mark === group && group !== decimal);
}

function groupsHold(head: string): boolean {
  return head
    .split(/[.,]/)
    .slice(1)
    .every((group) => group.length === 3);
}

/** The reader's own grouping and decimal signs. */
function signs(): { group: string; decimal: string } {
  const parts = numberFormat({ useGrouping: true }).formatToParts(12345.6);
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? "";
  return { group: part("group").replace("٬", "."), decimal: part("decimal").replace("٫", ",") };
}
