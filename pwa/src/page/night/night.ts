/** The night on the page: which one is asked for, the night itself as the phone holds it, and what is selected in it. */

import { batch, computed, effect, signal } from "@preact/signals";
import { LineFault } from "../line/fetching";
import { type ClockData, SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { copy, line, noSite, site, unsent } from "../store/queries";
import { syncNow } from "../sync/follow";
import { dayAfter } from "../words/moments";
import { fetchNight } from "./fetching";
import { nextRun } from "./moments";
import { comeAhead, nightAt, nights, tonightDate } from "./nights";
import { keepTime, now } from "./now";
import type { NightSheet, Run } from "./sheet";

export interface LoadedNight {
  site: string;
  document: SiteDocument;
  sheet: NightSheet;
  clock: SiteClock;
  clockData: ClockData;
}

export const TONIGHT = "tonight";

/** `tonight`, or the date of a night. */
export const asked = signal<string>(TONIGHT);
export const loaded = signal<LoadedNight | null>(null);
/** Why the night that is asked for cannot be shown. */
export const fault = signal<LineFault | null>(null);
/** The night that is asked for is on its way. */
export const busy = signal(false);
/** The date of tonight, as far as the page knows. */
export const tonight = computed(() => tonightDate.value);
/** The key of the run somebody looks at. */
export const selected = signal<string | null>(null);
/** The first run of the night after, once tonight has none left. */
export const tomorrow = computed(firstOfTomorrow);

/** Show the night that is asked for, out of what the phone holds, and follow it. */
export function followNight(): void {
  keepTime();
  effect(() => {
    tonightDate.value = nightAt(nights.value, now.value, tonightDate.peek());
  });
  effect(showAsked);
  effect(() => {
    // A line that is back is asked again, and so it is once more has been pulled than the night was asked for.
    revision.value;
    if (line.value.now !== "no_signal") void fill(missing.value);
  });
  effect(() => {
    if (loaded.value) return;
    if (noSite.value) fault.value = new LineFault(404, "");
    else if (line.value.now === "no_signal") fault.value = new LineFault(0, "");
  });
}

export function ask(night: string): void {
  batch(() => {
    selected.value = null;
    asked.value = night === tonight.peek() ? TONIGHT : night;
  });
}

/** Ask the server for a night once more: what the phone holds of it is missing or old. */
export async function load(night: string): Promise<void> {
  syncNow();
  if (copy.peek()) await fill(night);
}

function showAsked(): void {
  const night = wantedDate.value;
  const [known, document, held] = [nights.value.get(night), site.value, copy.value];
  if (!known || !document || !held) return;
  const { sheet, clock: clockData } = known;
  const before = loaded.peek();
  const clock = before?.clockData === clockData ? before.clock : new SiteClock(clockData);
  batch(() => {
    loaded.value = { site: held.site, document, sheet, clock, clockData };
    fault.value = null;
  });
}

const wantedDate = computed(() => (asked.value === TONIGHT ? tonightDate.value : asked.value));

/** The night that the server is to be asked for: the one asked for, or the one after, where the phone lacks it. */
const missing = computed(() => {
  if (!copy.value) return null;
  if (isLacking(wantedDate.value)) return asked.value;
  const current = loaded.value;
  if (!current || !isOver(current)) return null;
  const next = dayAfter(current.sheet.night, 1);
  return isLacking(next) ? next : null;
});

const revision = computed(() => copy.value?.revision ?? 0);

/** Nothing is known of the night, or nothing that holds any longer and that comes by itself. */
function isLacking(night: string): boolean {
  const known = nights.value.get(night);
  if (!known) return true;
  const old = known.behind || known.from === "phone";
  if (old && !comeAhead.value && !unsent.value.length) return true;
  return asked.value === TONIGHT && night === tonightDate.value && now.value >= known.clock.ends;
}

function isOver({ sheet }: LoadedNight): boolean {
  return asked.value === TONIGHT && !nextRun(sheet, now.value);
}

async function fill(night: string | null): Promise<void> {
  if (night === null) return;
  const isAsked = () => asked.peek() === night;
  busy.value = isAsked();
  try {
    await fetchNight(night);
    if (isAsked()) fault.value = null;
  } catch (error) {
    if (!(error instanceof LineFault)) throw error;
    if (isAsked()) fault.value = error;
  } finally {
    busy.value = false;
  }
}

/** Once tonight has no run left to come, people want to know when water comes next. */
function firstOfTomorrow(): { run: Run; clock: SiteClock; document: SiteDocument } | null {
  const current = loaded.value;
  if (!current || !isOver(current)) return null;
  const next = nights.value.get(dayAfter(current.sheet.night, 1));
  const run = next?.sheet.runs[0];
  return next && run ? { run, clock: new SiteClock(next.clock), document: current.document } : null;
}
