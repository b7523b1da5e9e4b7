/** The two weeks on show, and what is chosen in them. Follows the phone's nights and the address. */

import { computed, signal } from "@preact/signals";
import { loaded } from "../night/night";
import { type KnownNight, nights, tonightDate } from "../night/nights";
import type { Lane } from "../picture/lanes";
import type { SiteDocument } from "../site/document";
import { site } from "../store/queries";
import { type AheadNight, aheadNight, datesFrom, usualClosures, type Who } from "./almanac";
import { groupsOf, type Measure, measureOf } from "./silhouette";

/** The site as this phone has it; what the server last showed where it has none yet. */
export const siteShown = computed<SiteDocument | null>(() => site.value ?? loaded.value?.document ?? null);

export interface Outlook {
  document: SiteDocument;
  tonight: string;
  dates: string[];
  nights: ReadonlyMap<string, AheadNight>;
  groups: Lane[];
  measure: Measure;
  /** Closures that hold on many nights. */
  usual: ReadonlySet<string>;
}

export const outlook = computed<Outlook | null>(() => {
  const document = siteShown.value;
  return document && outlookOf(document, nights.value, tonightDate.value);
});

/** Null while no night is known. */
export function outlookOf(
  document: SiteDocument,
  known: ReadonlyMap<string, KnownNight>,
  tonight: string,
): Outlook | null {
  const dates = datesFrom(tonight, known.keys());
  const found = dates.flatMap((date) => {
    const night = known.get(date);
    return night ? [aheadNight(date, night, document)] : [];
  });
  const groups = groupsOf(
    document,
    found.map((night) => night.sheet),
  );
  const measure = measureOf(found, groups);
  if (!measure) return null;
  const byDate = new Map(found.map((night) => [night.date, night]));
  return { document, tonight, dates, nights: byDate, groups, measure, usual: usualClosures(found) };
}

/** What the list of nights is about: the whole site, or one program. */
export type About = { is: "site" } | { is: "programs" } | { is: "program"; id: string };

/** `/ahead`, `/ahead/programs`, `/ahead/program/p-a`. */
export function aboutOf(words: readonly string[], document: SiteDocument): About {
  const [kind, id] = words;
  if (kind === "programs") return { is: "programs" };
  if (kind === "program" && id && document.programs.has(id)) return { is: "program", id };
  return { is: "site" };
}

/** The night whose why is open in the list. */
export const opened = signal<string | null>(null);

/** The field of the grid that somebody looks at. */
export const chosenCell = signal<{ who: Who; date: string } | null>(null);
