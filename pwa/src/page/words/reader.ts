/** Who reads: language, units, clock and light. Every sentence and figure on the page follows these signals. */

import { effect, signal } from "@preact/signals";

export type UnitSet = "metric" | "us" | "imperial";
export type HourCycle = "12" | "24" | "";
export type Light = "" | "day" | "night" | "sun";

export interface Choices {
  language: string;
  units: UnitSet;
  hours: HourCycle;
  light: Light;
}

const UNIT_SETS: readonly string[] = ["metric", "us", "imperial"];
const HOUR_CYCLES: readonly string[] = ["", "12", "24"];
const LIGHTS: readonly string[] = ["", "day", "night", "sun"];
const KEPT_AS = "pengan.reader";

/** Regions where water is measured in US customary units (CLDR, supplemental measurement system). */
const US_REGIONS: readonly string[] = ["US", "LR"];

export const language = signal("en");
export const units = signal<UnitSet>("metric");
/** Empty: as the language has it. */
export const hours = signal<HourCycle>("");
/** Empty: as the device has it. */
export const light = signal<Light>("");

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
    hours: one(HOUR_CYCLES, address.get("hours"), kept.hours) ?? "",
    light: one(LIGHTS, address.get("light"), kept.light) ?? "",
  } as Choices;
}

function one(allowed: readonly string[], ...given: (string | null | undefined)[]): string | undefined {
  return given.find((value): value is string => typeof value === "string" && allowed.includes(value));
}

function usualUnits(wishes: readonly string[]): UnitSet {
  const region = wishes[0]?.split("-").find((part) => /^[A-Z]{2}$/.test(part));
  return region && US_REGIONS.includes(region) ? "us" : "metric";
}

/** The locale for numbers and dates: the reader's language, in the region the browser names for it. Latin digits. */
export function localeFor(tag: string, wishes: readonly string[]): string {
  const base = tag.split("-")[0] ?? "en";
  const pseudo = /-X[AB]$/.test(tag);
  const regional = wishes.find((wish) => wish.split("-")[0] === base);
  const chosen = pseudo ? base : tag.includes("-") ? tag : (regional ?? tag);
  return `${chosen.split("-u-")[0]}-u-nu-latn`;
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
    const kept: Choices = { language: language.value, units: units.value, hours: hours.value, light: light.value };
    try {
      localStorage.setItem(KEPT_AS, JSON.stringify(kept));
    } catch {
      // Without storage the choices hold until the page is closed, which is all that can be promised.
    }
  });
}
