/** The date it is on the site's wall, from which counted and listed days begin. */

import { computed } from "@preact/signals";
import { nights, tonightDate } from "../night/nights";
import { now } from "../night/now";
import { SiteClock } from "../site/clock";

/** Between midnight and noon it is a day later than the night. Where no night is known, the phone's own date. */
export const todayHere = computed(() => {
  const known = nights.value.get(tonightDate.value);
  const instant = now.value || Math.floor(Date.now() / 1000);
  if (known) return new SiteClock(known.clock).wall(instant).toISOString().slice(0, 10);
  return tonightDate.value || new Date(instant * 1000).toISOString().slice(0, 10);
});
