/** Where in the app the reader is. The address says it, so that back, bookmarks and a reload lead to the same place. */

import { computed, signal } from "@preact/signals";

/** The five rooms that are always one tap away; `site`, `need` and `wet-check`, behind them; and `join`, reached by a code alone. */
export const ROOMS = ["tonight", "stations", "ahead", "changes", "more", "site", "need", "wet-check", "join"] as const;
export type RoomName = (typeof ROOMS)[number];

/** `/stations/n14` is the room `stations` and the words `["n14"]`; `/` is tonight. */
export interface Place {
  room: RoomName;
  words: string[];
}

const KEPT_AS = "pengan.place";

export const place = signal<Place>(placeOf(location.pathname));
export const room = computed(() => place.value.room);

export function placeOf(path: string): Place {
  const [first = "", ...words] = path.split("/").filter(Boolean).map(decodeURIComponent);
  const found = ROOMS.find((name) => name === first);
  return found && found !== "tonight" ? { room: found, words } : { room: "tonight", words: found ? words : [] };
}

export function pathOf({ room, words }: Place): string {
  const path = [room, ...words].map(encodeURIComponent).join("/");
  return path === "tonight" ? "/" : `/${path}`;
}

/** Go somewhere: `go("stations", "n14")`. The step can be taken back with the browser's own button. */
export function go(room: RoomName, ...words: string[]): void {
  history.pushState(null, "", pathOf({ room, words }) + location.search);
  arrive();
}

/** The same without a step of its own, where a place only refines the one before (a chosen night, a filter). */
export function refine(room: RoomName, ...words: string[]): void {
  history.replaceState(null, "", pathOf({ room, words }) + location.search);
  arrive();
}

/** Back to where the reader came from; to `otherwise` where the app was opened right here. */
export function back(otherwise: RoomName): void {
  if (history.length > 1) history.back();
  else refine(otherwise);
}

/** Follow the address from now on, and open on the last screen used where the app was started from its icon. */
export function followAddress(): void {
  addEventListener("popstate", arrive);
  const last = localStorage.getItem(KEPT_AS);
  if (new URLSearchParams(location.search).get("from") === "icon" && last) {
    history.replaceState(null, "", last);
  }
  arrive();
}

function arrive(): void {
  place.value = placeOf(location.pathname);
  if (place.value.room !== "join") localStorage.setItem(KEPT_AS, location.pathname);
}
