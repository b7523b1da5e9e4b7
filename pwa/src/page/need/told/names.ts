/** Sentences of the engine about the water need, with the site's names in them. */

import { nights, tonightDate } from "../../night/nights";
import { exactTimeAt } from "../../night/reading";
import { SiteClock } from "../../site/clock";
import { site } from "../../store/queries";
import { type Message, say } from "../../words/say";

export function sayNeed(message: Message): string {
  return say(message, {
    name: (kind, record) => site.value?.nameOf(kind, record) ?? record,
    time: (instant) => {
      const known = nights.value.get(tonightDate.value);
      return known ? exactTimeAt(new SiteClock(known.clock), instant) : String(instant);
    },
  });
}

/** What a figure is called: the engine's own names, by its key. */
export function figureName(key: string): string {
  return sayNeed({ code: `figure.${key}`, params: {} });
}
