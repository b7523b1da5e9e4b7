/** Places on the ground, and how far apart they are. */

import type { SiteRecord } from "../site/document";
import type { Change } from "../store/shapes";

/** Degrees; north and east are positive. */
export interface Place {
  latitude_deg: number;
  longitude_deg: number;
}

/** Of latitude: the equator's 40 075 km in 360 parts. Good to half a percent, which is less than a phone knows. */
const METRES_A_DEGREE = 111_320;
/** The sixth decimal is a tenth of a metre: finer than any phone. */
const DECIMALS = 6;

/** Metres north and east. Grounds are small: the earth is flat there, and degrees of longitude as long as at the first. */
export function onFlatGround(places: readonly Place[]): [north: number, east: number][] {
  const narrowed = Math.cos(((places[0]?.latitude_deg ?? 0) * Math.PI) / 180);
  return places.map(({ latitude_deg, longitude_deg }) => [
    latitude_deg * METRES_A_DEGREE,
    longitude_deg * METRES_A_DEGREE * narrowed,
  ]);
}

/** How long the way from place to place is, in their order. Metres. */
export function metresAlong(places: readonly Place[]): number {
  const points = onFlatGround(places);
  return points.reduce((sum, [north, east], at) => {
    const [lastNorth, lastEast] = points[at - 1] ?? [north, east];
    return sum + Math.hypot(north - lastNorth, east - lastEast);
  }, 0);
}

export function metresBetween(one: Place, other: Place): number {
  return metresAlong([one, other]);
}

/** Where a station lies; null: its record does not say so. */
export function placeOf(station: SiteRecord | undefined): Place | null {
  const [latitude_deg, longitude_deg] = [station?.latitude_deg, station?.longitude_deg];
  if (typeof latitude_deg !== "number" || typeof longitude_deg !== "number") return null;
  return { latitude_deg, longitude_deg };
}

/** Both coordinates: they stand or fall together. */
export function putAt(station: string, place: Place): Change[] {
  const set = (field: keyof Place): Change => {
    return { kind: "set", table: "stations", record: station, field, now: Number(place[field].toFixed(DECIMALS)) };
  };
  return [set("latitude_deg"), set("longitude_deg")];
}
