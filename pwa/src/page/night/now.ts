/** The instant it is, by the server's clock: a phone's own may be wrong. Steps once a minute. */

import { signal } from "@preact/signals";
import type { Clock } from "../line/api";
import { getJson } from "../line/fetching";

/** What the phone knows of the server's clock: how far it is ahead of the phone's, and whether it stands still. */
export interface KnownTime {
  ahead_s: number;
  /** The server's clock was made to stand still, at this instant. */
  stands_at: number | null;
}

/** Whole seconds since 1970; 0 until the time is known from the server, now or in an earlier session. */
export const now = signal(0);

let known: KnownTime | null = null;
let asked = false;

/** Go on with what an earlier session learned. */
export function recallTime(time: KnownTime | null): void {
  if (!time || known) return;
  known = time;
  now.value = instant();
}

/** What is to be remembered for the next session. */
export function knownTime(): KnownTime | null {
  return known;
}

/** Ask the server what time it has. Raises `LineFault`. */
export async function askTime(language: string): Promise<void> {
  const clock = await getJson<Clock>("/api/clock", language);
  asked = true;
  learn(clock.now, clock.stands);
}

/** A greeting says the time too; where the clock itself was asked, that answer holds. */
export function hearTime(instant: number): void {
  if (!asked) learn(instant, false);
}

function learn(server: number, stands: boolean): void {
  known = { ahead_s: server - Date.now() / 1000, stands_at: stands ? server : null };
  now.value = server;
}

/** Keep time from now on. Phones let timers sleep, so the page looks again whenever it is seen. */
export function keepTime(): void {
  setInterval(look, 1000);
  document.addEventListener("visibilitychange", look);
}

function look(): void {
  if (!known || known.stands_at !== null) return;
  const time = instant();
  if (Math.floor(time / 60) !== Math.floor(now.peek() / 60)) now.value = time;
}

/** The same to the second; by the phone's own clock where the server's is not known. */
export function serverTime(): number {
  return instant() || Math.floor(Date.now() / 1000);
}

function instant(): number {
  if (!known) return 0;
  return known.stands_at ?? Math.floor(Date.now() / 1000 + known.ahead_s);
}
