/** Cuts the faces for Latin text down to the weights, letters and features in use, before the page is built. */

import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import subsetFont, { type Cut } from "subset-font";
import type { Plugin } from "vite";

const FOLDER = "generated/fonts";
const FACES = ["sofia-sans", "sofia-sans-condensed"] as const;
/** What the page asks of a face: marks and ligatures in their places, kerning, raised figures, figures in columns. */
const FEATURES = ["ccmp", "locl", "mark", "mkmk", "liga", "kern", "sups", "tnum"];
/** Latin-1 with the punctuation, figures and signs of running text. `fonts.css` names the same ranges. */
const LETTERS: readonly (readonly [number, number])[] = [
  [0x20, 0x7e],
  [0xa0, 0xff],
  [0x131, 0x131],
  [0x152, 0x153],
  [0x2c6, 0x2c6],
  [0x2da, 0x2da],
  [0x2dc, 0x2dc],
  [0x2010, 0x2027],
  [0x2030, 0x203a],
  [0x2044, 0x2044],
  [0x20ac, 0x20ac],
  [0x2122, 0x2122],
  [0x2191, 0x2191],
  [0x2193, 0x2193],
  [0x2212, 0x2212],
];

/** Whatever changes the result: a face is cut anew where it was cut otherwise. */
const CUT = {
  targetFormat: "woff2",
  variationAxes: { wght: { min: 400, max: 800 } },
  keepFeatures: FEATURES,
  noHinting: true,
} as const satisfies Cut;

export function cutFonts(): Plugin {
  return {
    name: "pengan-fonts",
    async buildStart() {
      mkdirSync(FOLDER, { recursive: true });
      for (const face of FACES) await cut(face);
    },
  };
}

async function cut(face: string): Promise<void> {
  const whole = readFileSync(locate(`@fontsource-variable/${face}/files/${face}-latin-wght-normal.woff2`));
  const stamp = createHash("sha256")
    .update(whole)
    .update(JSON.stringify([CUT, LETTERS]))
    .digest("hex");
  const [font, stampFile] = [`${FOLDER}/${face}.woff2`, `${FOLDER}/${face}.stamp`];
  if (existsSync(font) && existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp) return;
  writeFileSync(font, await subsetFont(whole, letters(), CUT));
  writeFileSync(stampFile, stamp);
}

function locate(file: string): string {
  return createRequire(import.meta.url).resolve(file);
}

function letters(): string {
  return LETTERS.map(([first, last]) =>
    String.fromCodePoint(...Array.from({ length: last - first + 1 }, (_, index) => first + index)),
  ).join("");
}
