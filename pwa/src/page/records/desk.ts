/** The drafts on this page, one for each record somebody works on. They outlive a look at another screen. */

import { computed, signal } from "@preact/signals";
import { copy } from "../store/queries";
import { changesOf } from "./changes";
import { type Draft, EMPTY, laidOver } from "./draft";
import { Records } from "./records";

const KEPT_AS = "pengan.drafts";

/** What stands on the desk, by the address of the page it belongs to. */
const drafts = signal<ReadonlyMap<string, Draft>>(kept());

export function draftOf(name: string): Draft {
  return drafts.value.get(name) ?? EMPTY;
}

export function putDraft(name: string, draft: Draft): void {
  const next = new Map(drafts.peek());
  if (draft.size === 0) next.delete(name);
  else next.set(name, draft);
  drafts.value = next;
  keep(next);
}

export function dropDraft(name: string): void {
  putDraft(name, EMPTY);
}

/** The site's records as they are in force on this phone. */
export const records = computed(() => new Records(copy.value?.records ?? []));

export const recordsWith = (draft: Draft): Records =>
  draft.size === 0 ? records.value : laidOver({ format: 0, records: copy.value?.records ?? [] }, draft);

export const changesWith = (draft: Draft) =>
  draft.size === 0 ? [] : changesOf({ format: 0, records: copy.value?.records ?? [] }, draft);

/** A reload keeps what was typed: in this tab, for as long as the tab lives. */
function keep(next: ReadonlyMap<string, Draft>): void {
  try {
    sessionStorage.setItem(KEPT_AS, JSON.stringify([...next].map(([name, draft]) => [name, [...draft]])));
  } catch {
    // Without storage a draft lives until the page is closed.
  }
}

function kept(): ReadonlyMap<string, Draft> {
  try {
    const found: unknown = JSON.parse(sessionStorage.getItem(KEPT_AS) ?? "[]");
    return new Map((found as [string, [string, never][]][]).map(([name, draft]) => [name, new Map(draft)]));
  } catch {
    // No storage here (a test, a browser that forbids it), or what an older page wrote: then there are no drafts.
    return new Map();
  }
}
