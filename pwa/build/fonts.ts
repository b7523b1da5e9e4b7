/** Cuts the faces for Latin text down to the weights, letters and features in use, before the page is built. */

import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import subsetFont, { type Cut } from "subset-font";
import type { Plugin } from "vite";

const FOLDER = "generated/fonts";
type Letters = readonly (readonly [number, number])[];

/** Letters without accents, figures, and the punctuation and signs of running text. */
const PLAIN: Letters = [
  [0x20, 0x7e],
  [0xa0, 0xa0],
  [0xb0, 0xb9],
  [0x2010, 0x2027],
  [0x2030, 0x203a],
  [0x2044, 0x2044],
  [0x20ac, 0x20ac],
  [0x2191, 0x2191],
  [0x2193, 0x2193],
  [0x2212, 0x2212],
];
/** The rest of what Western Europe writes. */
const ACCENTED: Letters = [
  [0xa1, 0xaf],
  [0xba, 0xff],
  [0x131, 0x131],
  [0x152, 0x153],
  [0x2c6, 0x2c6],
  [0x2da, 0x2da],
  [0x2dc, 0x2dc],
  [0x2122, 0x2122],
];
/** Marks in their places, figures in columns, raised figures; in running text ligatures and kerning besides. */
const [FEW, MORE] = [
  ["ccmp", "locl", "sups", "tnum"],
  ["ccmp", "locl", "mark", "mkmk", "liga", "kern", "sups", "tnum"],
];

/** `fonts.css` names the same ranges. The narrow face's accents are fetched only where a name in the picture has some. */
const FACES = [
  { name: "sofia-sans", of: "sofia-sans", letters: [...PLAIN, ...ACCENTED], features: MORE },
  { name: "sofia-sans-condensed", of: "sofia-sans-condensed", letters: PLAIN, features: FEW },
  { name: "sofia-sans-condensed-accented", of: "sofia-sans-condensed", letters: ACCENTED, features: FEW },
] as const;
type Face = (typeof FACES)[number];

export function cutFonts(): Plugin {
  return {
    name: "pengan-fonts",
    async buildStart() {
      mkdirSync(FOLDER, { recursive: true });
      for (const face of FACES) await cut(face);
    },
  };
}

/** A face is cut anew where it was cut otherwise before. */
async function cut(face: Face): Promise<void> {
  const whole = readFileSync(locate(`@fontsource-variable/${face.of}/files/${face.of}-latin-wght-normal.woff2`));
  const how: Cut = {
    targetFormat: "woff2",
    variationAxes: { wght: { min: 400, max: 800 } },
    keepFeatures: face.features ?? [],
    noHinting: true,
  };
  const asked = JSON.stringify([how, face.letters]);
  const stamp = createHash("sha256").update(whole).update(asked).digest("hex");
  const [font, stampFile] = [`${FOLDER}/${face.name}.woff2`, `${FOLDER}/${face.name}.stamp`];
  if (existsSync(font) && existsSync(stampFile) && readFileSync(stampFile, "utf8") === stamp) return;
  writeFileSync(font, await subsetFont(whole, written(face.letters), how));
  writeFileSync(stampFile, stamp);
}

function locate(file: string): string {
  return createRequire(import.meta.url).resolve(file);
}

function written(letters: Letters): string {
  return letters
    .map(([first, last]) =>
      String.fromCodePoint(...Array.from({ length: last - first + 1 }, (_, index) => first + index)),
    )
    .join("");
}
