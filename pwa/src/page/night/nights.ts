/** The nights this phone knows: those the server worked out, and over them those worked out here with unsent edits. */

import { signal } from "@preact/signals";
import type { ClockData } from "../site/clock";
import type { NightSheet } from "./sheet";

export interface KnownNight {
  sheet: NightSheet;
  clock: ClockData;
  /** `phone`: worked out here, with the outbox laid over the copy. */
  from: "server" | "phone";
  /** There are edits, unsent or just taken, that this sheet does not know of yet. */
  behind: boolean;
}

/** By the date on which the night's noon falls. */
export const nights = signal<ReadonlyMap<string, KnownNight>>(new Map());
/** The date of tonight by the server's time; empty where no night is known. */
export const tonightDate = signal("");
/** The server works nights out ahead, and they come by themselves. Else each is asked for when somebody looks at it. */
export const comeAhead = signal(false);

/** What the server worked out, and of what was worked out here that which the server has not caught up with. */
export function knownNights(
  before: ReadonlyMap<string, KnownNight>,
  server: ReadonlyMap<string, KnownNight>,
): ReadonlyMap<string, KnownNight> {
  const known = new Map(server);
  for (const [night, here] of before) {
    if (here.from === "phone" && (server.get(night)?.behind ?? true)) known.set(night, here);
  }
  return known;
}

/** The night that an instant falls in, among those that are known; else what was last said. */
export function nightAt(known: ReadonlyMap<string, KnownNight>, instant: number, otherwise: string): string {
  for (const [night, { clock }] of known) {
    if (clock.starts <= instant && instant < clock.ends) return night;
  }
  return otherwise;
}
