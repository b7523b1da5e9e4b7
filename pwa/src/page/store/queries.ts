/** What screens read. Every value is a signal that follows what the phone holds; no screen reads storage itself. */

import { computed, signal } from "@preact/signals";
import { SiteDocument } from "../site/document";
import type { Fullness } from "./outbox";
import type { Beside, Counts, Edit, Keeping, LineState, Others, OwnEdit, Person, SiteCopy, Waiting } from "./shapes";
import { NOTHING, totalOf } from "./unsent";

/** The site the reader looks at; null until the store is open, and where no site is known. */
export const copy = signal<SiteCopy | null>(null);
/** The same, looked up by table and id. */
export const site = computed(() => (copy.value ? new SiteDocument(copy.value) : null));
/** Edits the server has not answered, oldest first. */
export const unsent = signal<Edit[]>([]);
/** What else of the person's own waits here for the server, at whichever site. Its edits are those of `unsent`. */
export const besidesEdits = signal<Omit<Counts, "edits">>(NOTHING);
/** All of what is unsent, counted. */
export const unsentCounts = computed<Counts>(() => ({ ...besidesEdits.value, edits: unsent.value.length }));
export const unsentCount = computed(() => totalOf(unsentCounts.value));
/** Edits that are not in force and wait for a decision (open ones), newest first. */
export const waiting = signal<Waiting[]>([]);
/** Edits that waited and were decided about lately, newest first. */
export const decided = signal<Waiting[]>([]);
/** One's own edits of late and what became of them, newest first. */
export const ownEdits = signal<OwnEdit[]>([]);
/** What others changed in the same records while one's own edits were on their way, newest first. */
export const besides = signal<Beside[]>([]);
/** What other people who use this phone have not sent: it waits for them. */
export const othersUnsent = signal<Others[]>([]);
export const line = signal<LineState>({ now: "starting", spoke: null, silent_since: null });
/** The server knows of no such site, or not for this reader. */
export const noSite = signal(false);
/** Null: nobody is signed in on this phone. */
export const person = signal<Person | null>(null);
export const keeping = signal<Keeping>("unknown");
/** Why this phone keeps nothing at present; null: it does. Then the app can be read, and nothing can be changed. */
export const storageFault = signal<"refused" | "late" | "newer" | null>(null);
/** Whether it is time to find a signal, or nothing more can be kept. */
export const fullness = signal<Fullness>("ok");
/** What stands beside the name of the room Changes: how much waits for a person. */
export const waitingCount = computed(() => waiting.value.length);
/** So many faults were noticed and are not over. */
export const openAlarms = signal(0);
/** Something was told of valves: then it can be said what ran. */
export const valvesTold = signal(false);
/** Whether the reader may change anything, or only write notes, or only read. */
export const mayEdit = computed(() => copy.value?.role === "manager" || copy.value?.role === "lead");
export const mayNote = computed(() => copy.value?.role != null);
