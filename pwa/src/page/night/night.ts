/** The night on the page: which one is asked for, what the server said of it, and what is selected in it. */

import { effect, signal } from "@preact/signals";
import { getJson, LineFault } from "../line/fetching";
import { type ClockData, SiteClock } from "../site/clock";
import { type DocumentData, SiteDocument } from "../site/document";
import { dayAfter } from "../words/moments";
import { language } from "../words/reader";
import { nextRun } from "./moments";
import { askTime, keepTime, now } from "./now";
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
export const fault = signal<LineFault | null>(null);
export const busy = signal(false);
/** The date of tonight, as far as the page knows. */
export const tonight = signal("");
/** The key of the run somebody looks at. */
export const selected = signal<string | null>(null);
/** The first run of the night after, once tonight has none left. */
export const tomorrow = signal<{ run: Run; clock: SiteClock; document: SiteDocument } | null>(null);

interface SiteLine {
  id: string;
}

/** Load the night that is asked for, and follow it: another is asked for, or noon comes. */
export function followNight(): void {
  keepTime();
  effect(() => void load(asked.value));
  effect(() => {
    const current = loaded.value;
    const over = current && asked.peek() === TONIGHT && now.value >= current.sheet.ends;
    if (over) void load(TONIGHT);
  });
  effect(() => void lookAhead(loaded.value, now.value));
}

export function ask(night: string): void {
  selected.value = null;
  asked.value = night === tonight.peek() ? TONIGHT : night;
}

export async function load(night: string): Promise<void> {
  busy.value = true;
  try {
    await askTime(language.peek());
    const next = await fetchNight(await siteId(), night);
    if (asked.peek() !== night) return;
    if (night === TONIGHT) tonight.value = next.sheet.night;
    loaded.value = next;
    fault.value = null;
  } catch (error) {
    if (!(error instanceof LineFault)) throw error;
    if (asked.peek() === night) fault.value = error;
  } finally {
    busy.value = false;
  }
}

async function siteId(): Promise<string> {
  const known = new URLSearchParams(location.search).get("site") ?? loaded.peek()?.site;
  if (known) return known;
  const sites = await getJson<SiteLine[]>("/api/sites", language.peek());
  const first = sites[0];
  if (!first) throw new LineFault(404, "");
  return first.id;
}

async function fetchNight(site: string, night: string): Promise<LoadedNight> {
  const base = `/api/sites/${encodeURIComponent(site)}`;
  const [document, sheet, clock] = await Promise.all([
    getJson<DocumentData>(`${base}/document`, language.peek()),
    getJson<NightSheet>(`${base}/nights/${night}`, language.peek()),
    getJson<ClockData>(`${base}/nights/${night}/clock`, language.peek()),
  ]);
  return { site, document: new SiteDocument(document), sheet, clock: new SiteClock(clock), clockData: clock };
}

/** Once tonight has no run left to come, people want to know when water comes next. */
async function lookAhead(current: LoadedNight | null, instant: number): Promise<void> {
  const done = current && asked.peek() === TONIGHT && !nextRun(current.sheet, instant);
  if (!done) {
    tomorrow.value = null;
    return;
  }
  if (tomorrow.peek()) return;
  try {
    const next = await fetchNight(current.site, dayAfter(current.sheet.night, 1));
    const run = next.sheet.runs[0];
    tomorrow.value = run ? { run, clock: next.clock, document: next.document } : null;
  } catch (error) {
    if (!(error instanceof LineFault)) throw error;
    // Tonight still stands as it is; the line is asked again with the next minute.
  }
}
