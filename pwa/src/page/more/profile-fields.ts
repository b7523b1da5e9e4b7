/** The reader's choices as the server's profile has them, and back. */

import { type Choices, DIGITS, type OwnUnits, type UnitSet } from "../words/reader";

/** `units` is a set and single units over it, as `metric,flow=lps`; null is "as the language has it". */
export interface Profile {
  name: string;
  language: string;
  units: string | null;
  hour_cycle: string | null;
  first_day: string | null;
  digits: string | null;
}

export type Spoken = Pick<Choices, "language" | "units" | "ownUnits" | "hours" | "firstDay" | "digits">;

const SETS: readonly string[] = ["metric", "us", "imperial"];

export function profileOf(name: string, spoken: Spoken): Profile {
  return {
    name,
    language: spoken.language,
    units: unitsText(spoken.units, spoken.ownUnits),
    hour_cycle: spoken.hours || null,
    first_day: spoken.firstDay || null,
    digits: spoken.digits === "latn" ? null : spoken.digits,
  };
}

export function spokenOf(profile: Profile): Spoken {
  const { set, own } = readUnits(profile.units ?? "");
  return {
    language: profile.language,
    units: set,
    ownUnits: own,
    hours: (profile.hour_cycle ?? "") as Choices["hours"],
    firstDay: (profile.first_day ?? "") as Choices["firstDay"],
    digits: DIGITS.find((system) => system === profile.digits) ?? "latn",
  };
}

export function unitsText(set: UnitSet, own: OwnUnits): string {
  const single = Object.entries(own).map(([quantity, unit]) => `${quantity}=${unit}`);
  return [set, ...single.sort()].join(",");
}

function readUnits(text: string): { set: UnitSet; own: OwnUnits } {
  const parts = text.split(",").map((part) => part.trim());
  const set = (parts.find((part) => SETS.includes(part)) ?? "metric") as UnitSet;
  const own = parts.filter((part) => part.includes("=")).map((part) => part.split("=", 2) as [string, string]);
  return { set, own: Object.fromEntries(own) };
}
