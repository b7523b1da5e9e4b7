/** How a program looks: one of six colours, one of six patterns. Never colour alone: no two of 36 programs share both. */

export const HUES = 6;

export interface ProgramLook {
  hue: number;
  pattern: number;
}

/** A run that belongs to no program (somebody asked for it) looks like none of them. */
export const ASKED_LOOK: ProgramLook = { hue: HUES, pattern: 0 };

/** By the program's place in the document: each further round of six takes the next pattern. */
export function lookOf(place: number): ProgramLook {
  return { hue: place % HUES, pattern: (place + Math.floor(place / HUES)) % HUES };
}

export function fillName(look: ProgramLook): string {
  return `fill-${look.hue}-${look.pattern}`;
}
