/** What the site's wall reads now, and the date it is there, from which counted and listed days begin. */

import { computed } from "@preact/signals";
import { nights, tonightDate } from "../night/nights";
import { now } from "../night/now";
import { SiteClock } from "../site/clock";

/** Null where no night is known, and with it no clock of the site. */
export function wallHere(): Date | null {
  const known = nights.value.get(tonightDate.value);
  return known ? new SiteClock(known.clock).wall(instantNow()) : null;
}

function instantNow(): number {
  return now.value || Math.floor(Date.now() / 1000);
}

/** Between midnight and noon it is a day later than the night. Without a clock of the site, the phone's own date. */
export const todayHere = computed(() => {
  const wall = wallHere() ?? (tonightDate.value ? null : new Date(instantNow() * 1000));
  return wall ? wall.toISOString().slice(0, 10) : tonightDate.value;
});
