/** Tells the browser early of the face for running text, which it would find last. Every screen uses it. */

import type { HtmlTagDescriptor, Plugin, Rollup } from "vite";

const FACE = /^assets\/sofia-sans-.{8}\.woff2$/;

export function firstHints(): Plugin {
  return {
    name: "pengan-hints",
    transformIndexHtml: {
      order: "post",
      handler: (_, { bundle }) => Object.values(bundle ?? {}).flatMap(hint),
    },
  };
}

function hint(piece: Rollup.OutputChunk | Rollup.OutputAsset): HtmlTagDescriptor[] {
  if (!FACE.test(piece.fileName)) return [];
  const attrs = { rel: "preload", as: "font", type: "font/woff2", crossorigin: true, href: `/${piece.fileName}` };
  return [{ tag: "link", attrs, injectTo: "head" }];
}
