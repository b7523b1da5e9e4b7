/** The station or part of the grounds that somebody asks about: is it dry there? */

import { signal } from "@preact/signals";
import type { Subject } from "../night/dry";

export const subject = signal<Subject | null>(null);

/** Ask about a place, and bring the answer into view. */
export function askAbout(wanted: Subject): void {
  subject.value = wanted;
  requestAnimationFrame(() => document.getElementById("dry")?.scrollIntoView({ block: "nearest" }));
}
