/** What only the server has (devices, people, invitations): fetched with a line, and the last known answer without. */

import { type Signal, signal } from "@preact/signals";
import { getJson, LineFault } from "../line/fetching";
import { language } from "../words/reader";

export interface Known<Items> {
  items: Items | null;
  /** When it was fetched, in seconds by this phone's clock; null: never. */
  at: number | null;
  busy: boolean;
  /** Why it could not be fetched just now. */
  fault: LineFault | null;
}

export interface KnownAnswer<Items> {
  state: Signal<Known<Items>>;
  load(): Promise<void>;
}

const FOLDER = "pengan.known.";
export type KnownList<Item> = KnownAnswer<Item[]>;

const answers = new Map<string, KnownAnswer<unknown>>();

/** The list at an address of the API; the same one for whoever asks. `whose` keeps people of one phone apart. */
export function knownList<Item>(whose: string, path: string): KnownList<Item> {
  return knownAnswer<Item[]>(whose, path);
}

export function knownAnswer<Items>(whose: string, path: string): KnownAnswer<Items> {
  const key = `${FOLDER}${whose} ${path}`;
  const found = (answers.get(key) as KnownAnswer<Items> | undefined) ?? made<Items>(key, path);
  answers.set(key, found as KnownAnswer<unknown>);
  return found;
}

function made<Items>(key: string, path: string): KnownAnswer<Items> {
  const state = signal<Known<Items>>({ ...kept<Items>(key), busy: false, fault: null });
  const load = async () => {
    state.value = { ...state.peek(), busy: true };
    try {
      const items = await getJson<Items>(path, language.peek());
      state.value = { items, at: Math.floor(Date.now() / 1000), busy: false, fault: null };
      localStorage.setItem(key, JSON.stringify({ items, at: state.value.at }));
    } catch (error) {
      state.value = { ...state.peek(), busy: false, fault: asFault(error) };
    }
  };
  return { state, load };
}

function kept<Items>(key: string): Pick<Known<Items>, "items" | "at"> {
  try {
    const { items, at } = JSON.parse(localStorage.getItem(key) ?? "{}") as { items?: Items; at?: number };
    return { items: items ?? null, at: at ?? null };
  } catch {
    // What an older page wrote differently is not known.
    return { items: null, at: null };
  }
}

/** Storage that takes nothing more is no reason to hide the list that just came. */
function asFault(error: unknown): LineFault | null {
  if (error instanceof LineFault) return error;
  if (error instanceof DOMException) return null;
  throw error;
}

/** Nothing of a person who signs out is left in these lists. */
export function forgetLists(): void {
  answers.clear();
  for (const key of Object.keys(localStorage)) if (key.startsWith(FOLDER)) localStorage.removeItem(key);
}
