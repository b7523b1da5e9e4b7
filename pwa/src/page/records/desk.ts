/** The drafts of records somebody works on, each under the address of its page, and the records they lie over. */

import { computed } from "@preact/signals";
import { putDraft as keep, draftOf as kept } from "../edits/drafts";
import { copy } from "../store/queries";
import type { Change } from "../store/shapes";
import { changesOf } from "./changes";
import { type Draft, EMPTY, laidOver, type Touch } from "./draft";
import { Records } from "./records";

const PREFIX = "site/";

export function draftOf(name: string): Draft {
  const found = kept<[string, Touch][]>(PREFIX + name);
  return found ? new Map(found) : EMPTY;
}

export function putDraft(name: string, draft: Draft): void {
  keep(PREFIX + name, draft.size === 0 ? null : [...draft]);
}

export const dropDraft = (name: string): void => putDraft(name, EMPTY);

/** The site's records as this phone shows them. */
export const records = computed(() => new Records(copy.value?.records ?? []));

export function recordsWith(draft: Draft): Records {
  return draft.size === 0 ? records.value : laidOver(data(), draft);
}

export function changesWith(draft: Draft): Change[] {
  return draft.size === 0 ? [] : changesOf(data(), draft);
}

const data = () => ({ format: copy.value?.format ?? 0, records: copy.value?.records ?? [] });
