/** Several things in one sentence, joined as the reader's language joins them. */

import { catalogue } from "./catalogue";
import { listFormat } from "./formats";
import { isolate } from "./isolates";

export function listed(items: readonly string[]): string {
  return listFormat({ type: "conjunction" }).format(items);
}

/** So short that it is never torn apart: `102 L/min`. */
const WHOLE = 14;

/** Several things on one line, a dot between them; each keeps its own direction. */
export function sideBySide(items: readonly string[]): string {
  const { direction } = catalogue.value;
  return items
    .filter(Boolean)
    .map((item) => isolate(item.length > WHOLE ? item : item.replaceAll(" ", "\u00a0"), direction))
    .join(" · ");
}
