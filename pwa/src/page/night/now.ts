/** The instant it is, by the server's clock: a phone's own may be wrong. Steps once a minute. */

import { signal } from "@preact/signals";
import { getJson } from "../line/fetching";

interface ServerClock {
  now: number;
  /** The server's clock was made to stand still. */
  stands: boolean;
}

/** Whole seconds since 1970; 0 until the server has been asked. */
export const now = signal(0);

let ahead = 0;
let stands = false;

/** Ask the server what time it has. Raises `LineFault`. */
export async function askTime(language: string): Promise<void> {
  const clock = await getJson<ServerClock>("/api/clock", language);
  ahead = clock.now - Date.now() / 1000;
  stands = clock.stands;
  now.value = clock.now;
}

/** Keep time from now on. Phones let timers sleep, so the page looks again whenever it is seen. */
export function keepTime(): void {
  setInterval(look, 1000);
  document.addEventListener("visibilitychange", look);
}

function look(): void {
  if (stands || now.peek() === 0) return;
  const instant = Math.floor(Date.now() / 1000 + ahead);
  if (Math.floor(instant / 60) !== Math.floor(now.peek() / 60)) now.value = instant;
}
