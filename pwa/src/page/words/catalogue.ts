/** Sentences in the reader's language. The English text is the key; `t` and `tn` are how the translators' tools find it. */

import { signal } from "@preact/signals";
import { figure } from "./figures";
import { isolate } from "./isolates";

export interface Saying {
  template: string;
  many: string | null;
  count: string | null;
}

export interface Catalogue {
  language: string;
  name: string;
  direction: "ltr" | "rtl";
  /** One digit for each n under 200: the number of the plural form. */
  plural: string;
  messages: Record<string, string | string[]>;
  sayings: Record<string, Saying>;
}

export type Params = Record<string, string | number>;

const ENGLISH: Catalogue = {
  language: "en",
  name: "English",
  direction: "ltr",
  plural: "1".repeat(200).replace(/^../, "10"),
  messages: {},
  sayings: {},
};

export const catalogue = signal<Catalogue>(ENGLISH);

/** A sentence, its placeholders filled: `t("Finish {time}", { time })`. */
export function t(english: string, params: Params = {}): string {
  const found = catalogue.value.messages[english];
  return fill(typeof found === "string" && found ? found : english, params);
}

/** A sentence that changes with a number, which fills `{count}`: `tn("{count} run", "{count} runs", 3)`. */
export function tn(one: string, many: string, count: number, params: Params = {}): string {
  return fill(pluralForm(one, many, count), { count, ...params });
}

/** The template of the plural form that a number takes. */
export function pluralForm(one: string, many: string, count: number): string {
  const forms = catalogue.value.messages[one];
  if (!Array.isArray(forms)) return count === 1 ? one : many;
  const whole = Math.abs(Math.trunc(count));
  const form = catalogue.value.plural[whole < 200 ? whole : 100 + (whole % 100)];
  return forms[Number(form ?? 0)] || many;
}

/** Puts values in place of `{name}`. Text keeps its own direction; numbers take the reader's digits. */
export function fill(template: string, params: Params): string {
  return template.replace(/\{(\w+)\}/g, (whole, name: string) => {
    const value = params[name];
    if (value === undefined) return whole;
    return typeof value === "number" ? figure(value, 3) : isolate(value, catalogue.value.direction);
  });
}
