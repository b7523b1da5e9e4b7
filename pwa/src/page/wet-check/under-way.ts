/** The walk that is under way on this phone: it is kept with every step, so that a reload, a shut page or an empty battery
 * loses nothing. What was found is in the journal's outbox and in the repairs already. */

import { computed, signal } from "@preact/signals";
import { store } from "../sync/phone";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { isOver, type Walk } from "./walk";

const KEPT_AS = "pengan.wet-check";
const FATES: readonly unknown[] = ["ahead", "checked", "skipped"];

const kept = signal<Walk | null>(readWalk(read()));

/** The walk of whoever uses this phone, at the site that is open. */
export const walk = computed(() => {
  const [one, opened] = [kept.value, store.value];
  return one && opened && one.owner === opened.owner && one.site === opened.site ? one : null;
});

/** Whose walk a new one would be; null: no site is open. */
export function whose(): { owner: string; site: string } | null {
  const opened = store.peek();
  return opened && { owner: opened.owner, site: opened.site };
}

/** Seconds since 1970 by the phone's clock. */
export function phoneTime(): number {
  return Math.floor(Date.now() / 1000);
}

/** The walk as it is from now on; null: there is none. Where the browser keeps nothing, it lasts as long as the page. */
export function put(next: Walk | null): void {
  kept.value = next;
  try {
    if (next) localStorage.setItem(KEPT_AS, JSON.stringify(next));
    else localStorage.removeItem(KEPT_AS);
  } catch {
    keptHere.value = false;
  }
}

/** Whether a reload finds the walk again. */
export const keptHere = signal(true);

export function change(step: (walk: Walk) => Walk): void {
  const one = walk.peek();
  if (one) put(step(one));
}

/** How far the walk has come, for whoever looks elsewhere meanwhile: `12 of 140`; null: none is under way. */
export function underWayWords(): string | null {
  const one = walk.value;
  if (!one || isOver(one)) return null;
  return t("{place} of {count}", { place: figure(one.here + 1, 0), count: figure(one.stops.length, 0) });
}

function read(): string | null {
  try {
    return localStorage.getItem(KEPT_AS);
  } catch {
    return null;
  }
}

/** What was kept, where it is a whole walk: an older app may have written it. */
export function readWalk(text: string | null): Walk | null {
  try {
    const found = JSON.parse(text ?? "null") as Partial<Walk> | null;
    return found && isWalk(found) ? found : null;
  } catch {
    return null;
  }
}

function isWalk(found: Partial<Walk>): found is Walk {
  const { owner, site, began, each_s, stops, here, timer, ended } = found;
  const times = [began, each_s, here, timer?.left_s, timer?.since ?? 0, ended ?? 0];
  return (
    typeof owner === "string" &&
    typeof site === "string" &&
    times.every((time) => typeof time === "number") &&
    Array.isArray(stops) &&
    stops.every((stop) => typeof stop?.station === "string" && FATES.includes(stop.fate) && Array.isArray(stop.seen))
  );
}
