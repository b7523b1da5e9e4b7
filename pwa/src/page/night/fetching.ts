/** Nights that did not come ahead are asked for by themselves, and kept. */

import { getJson } from "../line/fetching";
import type { ClockData } from "../site/clock";
import { store } from "../sync/phone";
import { language } from "../words/reader";
import type { NightSheet } from "./sheet";

/** By night, and the revision it is good for. */
const underWay = new Map<string, Promise<void>>();

/** Ask the server for one night (`tonight`, or a date) of the open site, and keep it. Raises `LineFault`. */
export async function fetchNight(night: string): Promise<void> {
  const revision = store.peek()?.kept.head?.revision ?? 0;
  const key = `${night} ${revision}`;
  const asking = underWay.get(key) ?? fetchOne(night, revision).finally(() => underWay.delete(key));
  underWay.set(key, asking);
  await asking;
}

async function fetchOne(night: string, good_for: number): Promise<void> {
  const opened = store.peek();
  if (!opened) return;
  const base = `/api/sites/${encodeURIComponent(opened.site)}/nights/${night}`;
  const [sheet, clock] = await Promise.all([
    getJson<NightSheet>(base, language.peek()),
    getJson<ClockData>(`${base}/clock`, language.peek()),
  ]);
  await opened.keepNight({ night: sheet.night, sheet, clock, good_for });
}
