/** Tells the browser early what the first screen needs: its room, and the two faces for Latin text. */

import type { HtmlTagDescriptor, Plugin, Rollup } from "vite";

const FIRST_ROOM = /\/src\/page\/tonight\/room\.tsx$/;
const FACE = /^assets\/sofia-sans(?:-condensed)?-.{8}\.woff2$/;

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
  const href = `/${piece.fileName}`;
  if (piece.type === "chunk" && FIRST_ROOM.test(piece.facadeModuleId ?? "")) {
    return [{ tag: "link", attrs: { rel: "modulepreload", crossorigin: true, href }, injectTo: "head" }];
  }
  if (!FACE.test(piece.fileName)) return [];
  const attrs = { rel: "preload", as: "font", type: "font/woff2", crossorigin: true, href };
  return [{ tag: "link", attrs, injectTo: "head" }];
}
