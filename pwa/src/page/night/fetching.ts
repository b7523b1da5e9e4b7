/** Nights that did not come ahead are asked for by themselves, and kept. */

import { getJson } from "../line/fetching";
import type { ClockData } from "../site/clock";
import { store } from "../sync/phone";
import { language } from "../words/reader";
import type { NightSheet } from "./sheet";

const underWay = new Map<string, Promise<void>>();

/** Ask the server for one night (`tonight`, or a date) of the open site, and keep it. Raises `LineFault`. */
export async function fetchNight(night: string): Promise<void> {
  const asking = underWay.get(night) ?? fetchOne(night).finally(() => underWay.delete(night));
  underWay.set(night, asking);
  await asking;
}

async function fetchOne(night: string): Promise<void> {
  const opened = store.peek();
  if (!opened) return;
  const good_for = opened.kept.head?.revision ?? 0;
  const base = `/api/sites/${encodeURIComponent(opened.site)}/nights/${night}`;
  const [sheet, clock] = await Promise.all([
    getJson<NightSheet>(base, language.peek()),
    getJson<ClockData>(`${base}/clock`, language.peek()),
  ]);
  await opened.keepNight({ night: sheet.night, sheet, clock, good_for });
}
