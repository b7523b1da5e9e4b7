/** Plain numbers in the reader's digits and signs. */

import { computed } from "@preact/signals";
import { language, localeFor } from "./reader";

export const locale = computed(() => localeFor(language.value, navigatorLanguages()));

function navigatorLanguages(): readonly string[] {
  return typeof navigator === "undefined" ? [] : (navigator.languages ?? []);
}

/** A number with at most so many decimals, rounded half to even. */
export function figure(value: number, places: number): string {
  const options = { maximumFractionDigits: places, roundingMode: "halfEven" } as Intl.NumberFormatOptions;
  return new Intl.NumberFormat(locale.value, options).format(value);
}
