/** Weather stations of a site: what the server knows of them, and having it make or end one. */

import { sendJson } from "../../line/fetching";
import { type KnownList, knownList } from "../../more/known-list";
import { person } from "../../store/queries";
import { language } from "../../words/reader";

export interface WeatherStation {
  id: string;
  name: string;
  made_at: number;
  heard_at: number | null;
}

/** A new one; its token is told this once. */
export interface MadeStation {
  id: string;
  name: string;
  token: string;
}

const pathOf = (site: string, ...more: string[]): string =>
  ["/api/sites", encodeURIComponent(site), "weather-stations", ...more.map(encodeURIComponent)].join("/");

export const stationsOf = (site: string): KnownList<WeatherStation> => knownList(person.value?.id ?? "", pathOf(site));

export const makeStation = (site: string, name: string): Promise<MadeStation> =>
  sendJson<MadeStation>("POST", pathOf(site), { name: name.trim() }, language.peek());

export const endStation = (site: string, id: string): Promise<void> =>
  sendJson<void>("DELETE", pathOf(site, id), {}, language.peek());

/** Where a station sends its readings, and how they look: for the day before `today`, in the units that it names. */
export const READINGS = "/api/weather/readings";

export function exampleOf(yesterday: string): string {
  const day = { day: yesterday, high_degc: 24.1, low_degc: 13.6, humidity_pct: 61, wind_mps: 7.2, rain_mm: 0 };
  return JSON.stringify({ units: { wind_mps: "kmh" }, days: [day] }, null, 2);
}
