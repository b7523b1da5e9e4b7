/** The site's history as the server tells it, page by page; its newest part is kept on the phone for when there is no signal. */

import { signal } from "@preact/signals";
import { getJson, LineFault, sendJson } from "../line/fetching";
import type { DocumentData } from "../site/document";
import { copy, person } from "../store/queries";
import type { EditKind, Outcome } from "../store/shapes";
import { language } from "../words/reader";
import type { Message } from "../words/say";
import { keepPage, keptPage } from "./kept-page";

/** An edit as the history has it. Instants are whole seconds since 1970, by the server's clock. */
export interface PastEdit {
  id: string;
  set: string;
  kind: EditKind;
  table: string;
  record: string;
  field: string | null;
  was: unknown;
  /** What was in force. */
  before: unknown;
  now: unknown;
  outcome: Outcome;
  revision: number;
  person: string;
  device: string | null;
  at: number;
  phone_time: string | null;
  decided_by: string | null;
  decided_at: number | null;
  settles: string | null;
  undoes: string | null;
  effect: PastEffect | null;
}

/** What edits did to the night that was tonight then. Where several were weighed together, `revisions` says which. */
export interface PastEffect {
  night: string;
  revisions: [number, number];
  before: Figures;
  after: Figures;
}

export interface Figures {
  finish: number | null;
  volume_l: number;
  short_l: number;
}

export interface HistoryPage {
  edits: PastEdit[];
  people: Record<string, string>;
  next: number | null;
}

export interface Filters {
  person?: string;
  table?: string;
  record?: string;
  set?: string;
}

export interface Notice {
  night: string;
  message: Message;
  people: string[];
  revision: number | null;
  made_at: number;
}

/** `old`: no answer came, so this is what the phone had kept. */
export interface Book extends HistoryPage {
  filters: Filters;
  is: "empty" | "reading" | "read" | "old" | "failed";
}

const NOTHING: Book = { edits: [], people: {}, next: null, filters: {}, is: "empty" };

export const book = signal<Book>(NOTHING);
export const siteNotices = signal<Notice[]>([]);
/** The newest edits, whatever the filters: what others changed is told from them. */
export const newest = signal<HistoryPage>({ edits: [], people: {}, next: null });

const base = (): string => `/api/sites/${encodeURIComponent(copy.peek()?.site ?? "")}`;
const keptAs = (): string => `${person.peek()?.id ?? ""}.${copy.peek()?.site ?? ""}`;

/** Read the newest page under these filters; without an answer, what was kept of it. Never raises. */
export async function openBook(filters: Filters = {}): Promise<void> {
  if (!copy.peek()) return;
  const known = keptPage<HistoryPage>("history", keptAs());
  const same = JSON.stringify(filters) === JSON.stringify(book.peek().filters);
  book.value = { ...(same ? book.peek() : NOTHING), filters, is: "reading" };
  try {
    const page = await pageOf(filters, null);
    book.value = { ...page, filters, is: "read" };
    if (isPlain(filters)) remember(page);
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    book.value = known ? { ...withFilters(known, filters), filters, is: "old" } : { ...NOTHING, filters, is: "failed" };
  }
}

/** The newest edits and the notices, for telling what others changed. Never raises. */
export async function readNews(): Promise<void> {
  if (!copy.peek()) return;
  newest.value = keptPage<HistoryPage>("history", keptAs()) ?? newest.peek();
  siteNotices.value = keptPage<Notice[]>("notices", keptAs()) ?? siteNotices.peek();
  try {
    const [page, notices] = await Promise.all([
      pageOf({}, null),
      getJson<Notice[]>(`${base()}/notices`, language.peek()),
    ]);
    remember(page);
    siteNotices.value = notices;
    keepPage("notices", keptAs(), notices);
  } catch (fault) {
    // Without an answer what was kept stays on the screen, and the chip above says that there is no signal.
    if (!(fault instanceof LineFault)) throw fault;
  }
}

function remember(page: HistoryPage): void {
  newest.value = page;
  keepPage("history", keptAs(), page);
}

export async function olderPage(): Promise<void> {
  const before = book.peek();
  if (before.next === null || before.is === "reading") return;
  book.value = { ...before, is: "reading" };
  try {
    const page = await pageOf(before.filters, before.next);
    const people = { ...before.people, ...page.people };
    book.value = { ...before, edits: [...before.edits, ...page.edits], people, next: page.next, is: "read" };
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    book.value = { ...before, is: "old" };
  }
}

async function pageOf(filters: Filters, before: number | null): Promise<HistoryPage> {
  const asked = new URLSearchParams({ limit: "100", ...filters });
  if (before !== null) asked.set("before_revision", String(before));
  const { edits, people, next } = await getJson<HistoryPage>(`${base()}/history?${asked}`, language.peek());
  return { edits, people, next };
}

const isPlain = (filters: Filters): boolean => Object.keys(filters).length === 0;

/** The kept page holds everybody's edits of everything: filters are applied here where there is no line. */
export function withFilters(page: HistoryPage, filters: Filters): HistoryPage {
  const asked = Object.entries(filters) as [keyof Filters, string][];
  return {
    ...page,
    edits: page.edits.filter((edit) => asked.every(([name, value]) => edit[name] === value)),
    next: null,
  };
}

export interface Undone {
  outcome: Outcome;
  detail?: string;
}

/** Undo a set: a new set, answered like any other. Raises `LineFault`. */
export async function undoSet(which: string): Promise<Undone[]> {
  const answer = await sendJson<{ answers: Undone[] }>("POST", `${base()}/history/undo`, { which }, language.peek());
  return answer.answers;
}

/** The site as it stood at an instant. Raises `LineFault`. */
export async function documentAt(instant: number): Promise<DocumentData> {
  const found = await getJson<{ document: DocumentData }>(`${base()}/history/document?at=${instant}`, language.peek());
  return found.document;
}
