/** How things stand with an alarm, with what its reader did here and has not sent yet. */

import { told } from "../journal/queries";
import type { Kind } from "../journal/shapes";
import { person } from "../store/queries";
import type { Alarm } from "./shapes";

function unsent(alarm: Alarm, kind: Kind): boolean {
  return told.value.some(({ entry, taken }) => entry.alarm === alarm.id && entry.kind === kind && !taken);
}

export function isSeenByMe(alarm: Alarm): boolean {
  const me = person.value?.id;
  return alarm.seen.some((one) => one.person === me) || unsent(alarm, "alarm_seen");
}

/** Something was done here that the server does not know of yet. */
export function hasUnsent(alarm: Alarm): boolean {
  return unsent(alarm, "alarm_seen") || unsent(alarm, "alarm_explained") || unsent(alarm, "alarm_ended");
}

export function isEndedHere(alarm: Alarm): boolean {
  return unsent(alarm, "alarm_ended");
}
