/** How much waits on this phone for the server, in words. */

import type { Counts } from "../store/shapes";
import { tn } from "../words/catalogue";
import { listed } from "../words/lists";

/** `3 unsent edits and 1 unsent photo`; only what there is. */
export function unsentWords({ edits, entries, photos, rests }: Counts): string {
  const parts = [
    edits && tn("{count} unsent edit", "{count} unsent edits", edits),
    entries && tn("{count} unsent entry of the journal", "{count} unsent entries of the journal", entries),
    photos && tn("{count} unsent photo", "{count} unsent photos", photos),
    rests && tn("{count} unsent choice of how a night goes on", "{count} unsent choices of how a night goes on", rests),
  ];
  return listed(parts.filter((part) => part !== 0));
}
