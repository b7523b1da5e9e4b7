/** What we use of subset-font, which brings no types. */

declare module "subset-font" {
  export interface Cut {
    targetFormat: "woff2";
    variationAxes: Record<string, { min: number; max: number }>;
    keepFeatures: readonly string[];
    noHinting: boolean;
  }
  export default function subsetFont(font: Uint8Array, text: string, cut: Cut): Promise<Uint8Array>;
}
