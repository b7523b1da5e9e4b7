/** Who reads: language, units, clock, week, digits and light. Every sentence and figure on the page follows these signals. */

import { batch, effect, signal } from "@preact/signals";

export type UnitSet = "metric" | "us" | "imperial";
export type HourCycle = "12" | "24" | "";
export type FirstDay = "" | "mon" | "tue" | "wed" | "thu" | "fri" | "sat" | "sun";
/** Numbering systems of CLDR: 0123, ٠١٢٣, ۰۱۲۳, ०१२३. */
export type Digits = "latn" | "arab" | "arabext" | "deva";
export type Light = "" | "day" | "night" | "sun";
export type TextSize = "" | "large" | "largest";
/** One unit for a single quantity, over the set: `{ flow: "lps" }`. */
export type OwnUnits = Readonly<Record<string, string>>;

export interface Choices {
  language: string;
  units: UnitSet;
  ownUnits: OwnUnits;
  hours: HourCycle;
  firstDay: FirstDay;
  digits: Digits;
  light: Light;
  textSize: TextSize;
}

const UNIT_SETS: readonly string[] = ["metric", "us", "imperial"];
const HOUR_CYCLES: readonly string[] = ["", "12", "24"];
const FIRST_DAYS: readonly string[] = ["", "mon", "tue", "wed", "thu", "fri", "sat", "sun"];
export const DIGITS: readonly Digits[] = ["latn", "arab", "arabext", "deva"];
const LIGHTS: readonly string[] = ["", "day", "night", "sun"];
const TEXT_SIZES: readonly string[] = ["", "large", "largest"];
const KEPT_AS = "pengan.reader";

/** Regions where water is measured in US customary units (CLDR, supplemental measurement system). */
const US_REGIONS: readonly string[] = ["US", "LR"];

export const language = signal("en");
export const units = signal<UnitSet>("metric");
export const ownUnits = signal<OwnUnits>({});
/** Empty: as the language has it. */
export const hours = signal<HourCycle>("");
/** Empty: as the language has it. */
export const firstDay = signal<FirstDay>("");
export const digits = signal<Digits>("latn");
/** Empty: as the device has it. */
export const light = signal<Light>("");
/** Empty: as the device has it. */
export const textSize = signal<TextSize>("");

/** What a wish like `es-MX` chooses among the languages there are: the longest tag that fits. */
export function matchLanguage(wish: string, known: readonly string[]): string | undefined {
  const parts = wish.split("-");
  for (let length = parts.length; length > 0; length--) {
    const tag = parts.slice(0, length).join("-").toLowerCase();
    const found = known.find((name) => name.toLowerCase() === tag);
    if (found) return found;
  }
  return undefined;
}

/** The first wish that can be met. A page is asked for by its address, by what was kept, then by the browser. */
export function chooseReader(
  address: URLSearchParams,
  kept: Partial<Choices>,
  wishes: readonly string[],
  known: readonly string[],
): Choices {
  const asked = [address.get("language"), kept.language, ...wishes].filter((wish): wish is string => !!wish);
  const found = asked.map((wish) => matchLanguage(wish, known)).find((tag) => tag !== undefined);
  return {
    language: found ?? "en",
    units: one(UNIT_SETS, address.get("units"), kept.units) ?? usualUnits(wishes),
    ownUnits: pairs(kept.ownUnits),
    hours: one(HOUR_CYCLES, address.get("hours"), kept.hours) ?? "",
    firstDay: one(FIRST_DAYS, address.get("first_day"), kept.firstDay) ?? "",
    digits: one(DIGITS, address.get("digits"), kept.digits) ?? "latn",
    light: one(LIGHTS, address.get("light"), kept.light) ?? "",
    textSize: one(TEXT_SIZES, address.get("text"), kept.textSize) ?? "",
  } as Choices;
}

/** What the reader chose, all at once: everything on the page follows in one step. */
export function putChoices(chosen: Partial<Choices>): void {
  batch(() => {
    language.value = chosen.language ?? language.peek();
    units.value = chosen.units ?? units.peek();
    ownUnits.value = chosen.ownUnits ?? ownUnits.peek();
    hours.value = chosen.hours ?? hours.peek();
    firstDay.value = chosen.firstDay ?? firstDay.peek();
    digits.value = chosen.digits ?? digits.peek();
    light.value = chosen.light ?? light.peek();
    textSize.value = chosen.textSize ?? textSize.peek();
  });
}

/** What is chosen now. Read inside an effect or a component, it is followed. */
export function choices(): Choices {
  return {
    language: language.value,
    units: units.value,
    ownUnits: ownUnits.value,
    hours: hours.value,
    firstDay: firstDay.value,
    digits: digits.value,
    light: light.value,
    textSize: textSize.value,
  };
}

function one(allowed: readonly string[], ...given: (string | null | undefined)[]): string | undefined {
  return given.find((value): value is string => typeof value === "string" && allowed.includes(value));
}

/** A unit that is no longer known is passed over where it is used. */
function pairs(given: unknown): OwnUnits {
  const entries = given && typeof given === "object" ? Object.entries(given) : [];
  return Object.fromEntries(entries.filter((entry): entry is [string, string] => typeof entry[1] === "string"));
}

function usualUnits(wishes: readonly string[]): UnitSet {
  const region = wishes[0]?.split("-").find((part) => /^[A-Z]{2}$/.test(part));
  return region && US_REGIONS.includes(region) ? "us" : "metric";
}

/** The locale for numbers and dates: the reader's language, in the region the browser names for it, in their digits. */
export function localeFor(tag: string, wishes: readonly string[], system: Digits = "latn"): string {
  const base = tag.split("-")[0] ?? "en";
  const pseudo = /-X[AB]$/.test(tag);
  const regional = wishes.find((wish) => wish.split("-")[0] === base);
  const chosen = pseudo ? base : tag.includes("-") ? tag : (regional ?? tag);
  return `${chosen.split("-u-")[0]}-u-nu-${system}`;
}

export function keptChoices(): Partial<Choices> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEPT_AS) ?? "{}");
    return typeof kept === "object" && kept !== null ? kept : {};
  } catch {
    // A browser may forbid storage, or hold what an older page wrote: then nothing was kept.
    return {};
  }
}

/** Follow the choices from now on: keep them on this device. */
export function keepChoices(): void {
  effect(() => {
    const kept = JSON.stringify(choices());
    try {
      localStorage.setItem(KEPT_AS, kept);
    } catch {
      // Without storage the choices hold until the page is closed, which is all that can be promised.
    }
  });
}
