/** What somebody was about to change when they looked away: it outlives a reload, and is theirs alone. */

import { effect, signal } from "@preact/signals";
import { person } from "../store/queries";

const KEPT_AS = "pengan.drafts.";

type Drafts = Readonly<Record<string, unknown>>;

/** By the name of the screen and the record it is about. */
const drafts = signal<Drafts>({});

/** Whose drafts they are: a phone that changes hands shows nobody what another was typing. */
effect(() => {
  drafts.value = kept(person.value?.id ?? "");
});

export function draftOf<Value>(name: string): Value | null {
  return (drafts.value[name] as Value | undefined) ?? null;
}

export function putDraft(name: string, value: unknown): void {
  const { [name]: _, ...others } = drafts.peek();
  drafts.value = value === null ? others : { ...others, [name]: value };
  keep(person.peek()?.id ?? "", drafts.peek());
}

function keep(owner: string, all: Drafts): void {
  try {
    if (Object.keys(all).length === 0) localStorage.removeItem(KEPT_AS + owner);
    else localStorage.setItem(KEPT_AS + owner, JSON.stringify(all));
  } catch {
    // Without storage, or with none left, a draft lives until the page is closed: it was never said to be saved.
  }
}

function kept(owner: string): Drafts {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEPT_AS + owner) ?? "{}");
    return typeof found === "object" && found !== null ? (found as Drafts) : {};
  } catch {
    // No storage, or what an older page wrote: then there are none.
    return {};
  }
}
