/** What screens read of the alarms. */

import { computed, signal } from "@preact/signals";
import type { Alarm } from "./shapes";

/** What this phone knows of; open ones first, then the newest. */
export const alarms = signal<readonly Alarm[]>([]);
export const standing = computed(() => alarms.value.filter((alarm) => alarm.ended === null));
