/**
 * The formats in which the reader's language writes numbers, dates and lists. A phone takes long to make one, and a
 * night asks for hundreds: each is made once for a language, a region and its digits.
 */

import { computed } from "@preact/signals";
import { digits, language, localeFor } from "./reader";

export const locale = computed(() => localeFor(language.value, navigatorLanguages(), digits.value));

function navigatorLanguages(): readonly string[] {
  return typeof navigator === "undefined" ? [] : (navigator.languages ?? []);
}

export const numberFormat = keeper(
  (tag: string, options: Intl.NumberFormatOptions) => new Intl.NumberFormat(tag, options),
);

/** For the site's wall times, which are written as if they were UTC. */
export const wallFormat = keeper(
  (tag: string, options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat(tag, { ...options, timeZone: "UTC" }),
);

export const listFormat = keeper((tag: string, options: Intl.ListFormatOptions) => new Intl.ListFormat(tag, options));

/** Asks for the format of the reader's locale; makes it when it is first asked for. */
function keeper<Options, Format>(make: (tag: string, options: Options) => Format): (options: Options) => Format {
  const made = new Map<string, Format>();
  return (options) => {
    const key = `${locale.value} ${JSON.stringify(options)}`;
    const known = made.get(key) ?? make(locale.value, options);
    made.set(key, known);
    return known;
  };
}
