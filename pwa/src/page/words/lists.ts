/** Several things in one sentence, joined as the reader's language joins them. */

import { catalogue } from "./catalogue";
import { locale } from "./figures";
import { isolate } from "./isolates";

export function listed(items: readonly string[]): string {
  return new Intl.ListFormat(locale.value, { type: "conjunction" }).format(items);
}

/** Several things on one line, a dot between them; each keeps its own direction. */
export function sideBySide(items: readonly string[]): string {
  const { direction } = catalogue.value;
  return items
    .filter(Boolean)
    .map((item) => isolate(item, direction))
    .join(" · ");
}
