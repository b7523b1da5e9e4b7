/** What ran of the night on the screen. */

import { computed } from "@preact/signals";
import { loaded } from "../night/night";
import { now } from "../night/now";
import { entries } from "./queries";
import { type Ran, ranOf } from "./ran";

const NONE: ReadonlyMap<string, Ran> = new Map();

export const ran = computed(() => {
  const night = loaded.value;
  if (!night || !entries.value?.length) return NONE;
  return ranOf(night.sheet, night.document, entries.value, now.value);
});
