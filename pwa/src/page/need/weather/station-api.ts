/** Weather stations of a site, and how one sends its readings. */

import { type MadeSender, type Sender, sendersUnder } from "../../senders/sender-api";

export type WeatherStation = Sender;
export type MadeStation = MadeSender;

export const weatherStations = sendersUnder<WeatherStation>("weather-stations");

/** Where a station sends its readings, and how they look: for the day before `today`, in the units that it names. */
export const READINGS = "/api/weather/readings";

export function exampleOf(yesterday: string): string {
  const day = { day: yesterday, high_degc: 24.1, low_degc: 13.6, humidity_pct: 61, wind_mps: 7.2, rain_mm: 0 };
  return JSON.stringify({ units: { wind_mps: "kmh" }, days: [day] }, null, 2);
}
