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
