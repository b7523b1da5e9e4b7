/** What a block can say of itself. A label stands whole or not at all: words are never cut. */

export interface BlockLabel {
  code: string;
  place: string;
  letter: string;
}

/** Widths of the condensed face at 13 px, measured: a middling letter, and the air around a label. */
const LETTER_PX = 6.3;
const AIR_PX = 8;

export function widthOf(text: string): number {
  return text.length * LETTER_PX;
}

/** On a phone the letter alone; at a desk the station's number, its place where that fits, the letter in the far corner. */
export function labelFor(wide: boolean, width: number, height: number, full: BlockLabel): BlockLabel {
  const none = { code: "", place: "", letter: "" };
  if (!wide) return width >= 13 && height >= 13 ? { ...none, letter: full.letter } : none;
  const code = width >= 27 && height >= 15 && widthOf(full.code) + AIR_PX <= width ? full.code : "";
  if (!code) return none;
  const place = width >= 62 && height >= 33 && widthOf(full.place) + AIR_PX <= width ? full.place : "";
  const letter = widthOf(code) + widthOf(full.letter) + 2 * AIR_PX + 4 <= width ? full.letter : "";
  return { code, place, letter };
}
