/** Where this phone is (W3C Geolocation). Asked for on a tap alone, and for no longer than it takes to know well enough. */

import type { Place } from "./place";

export interface Located extends Place {
  /** The place is within so many metres of this, in 95 of 100 cases, as the specification has it. */
  accuracy_m: number;
}

export type LocatingFault = "not_allowed" | "unknown";

/** Common practice, no source: from here on waiting longer brings little. */
export const GOOD_ENOUGH_M = 10;
const PATIENCE_MS = 20_000;

/** The best that the phone comes to know: at once where that is good enough, else the best of twenty seconds, since the
 * first answer after a while is often hundreds of metres off. */
export function locate(good_m = GOOD_ENOUGH_M, patience_ms = PATIENCE_MS): Promise<Located | LocatingFault> {
  const { geolocation } = navigator;
  if (!geolocation) return Promise.resolve("unknown");
  return new Promise((resolve) => {
    let best: Located | null = null;
    const done = (answer: Located | LocatingFault) => {
      clearTimeout(timer);
      geolocation.clearWatch(watch);
      resolve(answer);
    };
    const timer = setTimeout(() => done(best ?? "unknown"), patience_ms);
    const watch = geolocation.watchPosition(
      ({ coords }) => {
        const found = locatedAt(coords);
        if (!best || found.accuracy_m < best.accuracy_m) best = found;
        if (found.accuracy_m <= good_m) done(found);
      },
      // Whatever else goes wrong may still come right: a phone that has just been woken finds its place later.
      (fault) => fault.code === fault.PERMISSION_DENIED && done("not_allowed"),
      { enableHighAccuracy: true, maximumAge: 0, timeout: patience_ms },
    );
  });
}

function locatedAt({ latitude, longitude, accuracy }: GeolocationCoordinates): Located {
  return { latitude_deg: latitude, longitude_deg: longitude, accuracy_m: accuracy };
}
