/** Lengths of time as people read them: 4800 seconds → `1 h 20 min`, leaving out what is zero. */

import { t } from "./catalogue";
import { figure } from "./figures";

export function duration(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const parts = { h: Math.floor(whole / 3600), min: Math.floor(whole / 60) % 60, s: whole % 60 };
  return (seconds < 0 ? "−" : "") + worded(parts.h, parts.min, parts.s);
}

/** To the minute, for what is to come: never less than one. */
export function minutesUntil(seconds: number): string {
  return duration(Math.max(1, Math.ceil(seconds / 60)) * 60);
}

function worded(h: number, min: number, s: number): string {
  const [hours, minutes, seconds] = [figure(h, 0), figure(min, 0), figure(s, 0)];
  if (h && min && s) return t("{hours} h {minutes} min {seconds} s", { hours, minutes, seconds });
  if (h && min) return t("{hours} h {minutes} min", { hours, minutes });
  if (h && s) return t("{hours} h {seconds} s", { hours, seconds });
  if (h) return t("{hours} h", { hours });
  if (min && s) return t("{minutes} min {seconds} s", { minutes, seconds });
  if (s) return t("{seconds} s", { seconds });
  return t("{minutes} min", { minutes });
}
