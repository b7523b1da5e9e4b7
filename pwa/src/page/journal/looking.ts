/** What of the journal is shown: what the phone holds, and what the server was asked for beyond that. */

import { computed, signal } from "@preact/signals";
import { alarms } from "../alarms/queries";
import { getJson, LineFault } from "../line/fetching";
import { serverTime } from "../night/now";
import { copy, site } from "../store/queries";
import { language } from "../words/reader";
import { isLooked, kindsOf, type Looked, wholeSince } from "./choosing";
import { KEPT_DAYS, MOST_ENTRIES } from "./kept";
import { entries, followed, type Happened, happened } from "./queries";
import { KEPT_KINDS } from "./round";
import { saidLines } from "./said";
import type { Entry } from "./shapes";
import { rowWords } from "./words";

const ON_A_PAGE = 100;

interface Older {
  /** What it was asked with: another question begins anew. */
  of: string;
  entries: readonly Entry[];
  names: Record<string, string>;
  /** The next page; null: there is none; undefined: nothing was asked yet. */
  next: string | null | undefined;
  is: "resting" | "asking" | "no_line" | "refused";
}

const NONE: Older = { of: "", entries: [], names: {}, next: undefined, is: "resting" };

export const looked = signal<Looked>({ sort: "calm", about: null, text: "" });
const question = computed(() => JSON.stringify([copy.value?.site, looked.value]));
const asked = signal<Older>(NONE);
export const older = computed(() => (asked.value.of === question.value ? asked.value : NONE));
export const names = computed(() => ({ ...older.value.names, ...followed.value.names }));

/** What is looked for, the newest first. */
export const found = computed<readonly Happened[]>(() => {
  const document = site.value;
  if (!document) return [];
  const words = (entry: Happened) => rowWords(entry, document, names.value, saidLines(entry, document, alarms.value));
  const here = happened.value.filter((entry) => isLooked(entry, looked.value, words));
  const known = new Set(here.map((entry) => entry.id));
  const more = older.value.entries.filter((entry) => !known.has(entry.id)).map((entry) => ({ ...entry, row: null }));
  return [...here, ...more].sort((one, other) => other.at - one.at || (one.id < other.id ? 1 : -1));
});

/** Whether the phone keeps none of what is looked for, so that the server is asked at once. */
export const onlyAsked = computed(() => !kindsOf(looked.value.sort).every((kind) => KEPT_KINDS.includes(kind)));

/** Ask the server for what happened before; each time for one page more. */
export async function askOlder(): Promise<void> {
  const before = older.peek();
  const of = question.peek();
  if (before.next === null || before.is === "asking") return;
  asked.value = { ...before, of, is: "asking" };
  try {
    const page = await getJson<{ entries: Entry[]; names: Record<string, string>; next: string | null }>(
      pathOf(before.next ?? null),
      language.peek(),
    );
    if (question.peek() !== of) return;
    const all = [...before.entries, ...page.entries];
    asked.value = { of, entries: all, names: { ...before.names, ...page.names }, next: page.next, is: "resting" };
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    if (question.peek() === of) asked.value = { ...before, of, is: fault.status ? "refused" : "no_line" };
  }
}

function pathOf(page: string | null): string {
  const { sort, about, text } = looked.peek();
  const query = new URLSearchParams({ limit: String(ON_A_PAGE) });
  for (const kind of kindsOf(sort)) query.append("kind", kind);
  if (about) query.set(about.table, about.id);
  if (text.trim()) query.set("text", text.trim());
  const since = wholeSince(entries.peek() ?? [], serverTime(), KEPT_DAYS, MOST_ENTRIES);
  if (!onlyAsked.peek()) query.set("ends", String(since));
  if (page !== null) query.set("page", page);
  return `/api/sites/${encodeURIComponent(copy.peek()?.site ?? "")}/journal?${query}`;
}
