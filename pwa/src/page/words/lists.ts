/** Several things in one sentence, joined as the reader's language joins them. */

import { locale } from "./figures";

export function listed(items: readonly string[]): string {
  return new Intl.ListFormat(locale.value, { type: "conjunction" }).format(items);
}
