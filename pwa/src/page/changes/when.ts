/** When something was done, on the site's wall: dates long past may have had another offset than tonight. */

import { loaded } from "../night/night";
import { nights, tonightDate } from "../night/nights";
import { now } from "../night/now";
import { SiteClock } from "../site/clock";
import { site } from "../store/queries";
import { t } from "../words/catalogue";
import { shortDay, timeOfDay } from "../words/moments";

/** The site's wall at an instant, as a `Date` whose UTC fields are what the wall read. */
export function wallOf(instant: number): Date {
  const zone = site.value?.all("site")[0]?.zone;
  const zoned = typeof zone === "string" ? inZone(instant, zone) : null;
  return zoned ?? tonightsClock()?.wall(instant) ?? new Date(instant * 1000);
}

/** Null where this browser does not know the zone. */
function inZone(instant: number, timeZone: string): Date | null {
  try {
    const options = { timeZone, hourCycle: "h23", year: "numeric", month: "2-digit", day: "2-digit" } as const;
    const fine = { hour: "2-digit", minute: "2-digit", second: "2-digit" } as const;
    const parts = new Intl.DateTimeFormat("en", { ...options, ...fine }).formatToParts(new Date(instant * 1000));
    const part = (type: string) => parts.find((one) => one.type === type)?.value ?? "00";
    return new Date(
      `${part("year")}-${part("month")}-${part("day")}T${part("hour")}:${part("minute")}:${part("second")}Z`,
    );
  } catch {
    return null;
  }
}

function tonightsClock(): SiteClock | null {
  const known = nights.value.get(tonightDate.value);
  return known ? new SiteClock(known.clock) : (loaded.value?.clock ?? null);
}

/** `22:57` today, with its day before that. */
export function whenWords(instant: number): string {
  const wall = wallOf(instant);
  const day = wall.toISOString().slice(0, 10);
  const today = now.value > 0 && wallOf(now.value).toISOString().slice(0, 10) === day;
  const time = timeOfDay(wall);
  return today ? time : t("{day}, {time}", { day: shortDay(day), time });
}

export function dayOf(instant: number): string {
  return wallOf(instant).toISOString().slice(0, 10);
}

/** A phone's own clock, shown as it was written and never used. */
export function phoneTime(written: unknown): number | null {
  const ms = typeof written === "string" ? Date.parse(written) : Number.NaN;
  return Number.isFinite(ms) ? Math.floor(ms / 1000) : null;
}
