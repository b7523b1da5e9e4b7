/** What screens read. Every value is a signal that follows what the phone holds; no screen reads storage itself. */

import { computed, signal } from "@preact/signals";
import { SiteDocument } from "../site/document";
import type { Edit, Keeping, LineState, Person, SiteCopy, Waiting } from "./shapes";

/** The site the reader looks at; null until the store is open, and where no site is known. */
export const copy = signal<SiteCopy | null>(null);
/** The same, looked up by table and id. */
export const site = computed(() => (copy.value ? new SiteDocument(copy.value) : null));
/** Edits the server has not answered, oldest first. */
export const unsent = signal<Edit[]>([]);
/** Edits that are not in force and wait for a decision (open ones), newest first. */
export const waiting = signal<Waiting[]>([]);
export const line = signal<LineState>({ now: "starting", spoke: null, silent_since: null });
/** Null: nobody is signed in on this phone. */
export const person = signal<Person | null>(null);
export const keeping = signal<Keeping>("unknown");
/** What stands beside the name of the room Changes: how much waits for a person. */
export const waitingCount = computed(() => waiting.value.length);
/** Whether the reader may change anything, or only write notes, or only read. */
export const mayEdit = computed(() => copy.value?.role === "manager" || copy.value?.role === "lead");
export const mayNote = computed(() => copy.value?.role != null);
