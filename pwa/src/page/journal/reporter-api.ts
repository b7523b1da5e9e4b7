/** Reporters of a site: what the server knows of them, and having it make or end one. */

import { sendJson } from "../line/fetching";
import { type KnownList, knownList } from "../more/known-list";
import { person } from "../store/queries";
import { language } from "../words/reader";

export interface Reporter {
  id: string;
  name: string;
  made_at: number;
  heard_at: number | null;
  taken: number;
  aside: number;
}

/** A new one; its token is told this once. */
export interface MadeReporter {
  id: string;
  name: string;
  token: string;
}

const pathOf = (site: string, ...more: string[]): string =>
  ["/api/sites", encodeURIComponent(site), "reporters", ...more.map(encodeURIComponent)].join("/");

export const reportersOf = (site: string): KnownList<Reporter> => knownList(person.value?.id ?? "", pathOf(site));

export const makeReporter = (site: string, name: string): Promise<MadeReporter> =>
  sendJson<MadeReporter>("POST", pathOf(site), { name: name.trim() }, language.peek());

export const endReporter = (site: string, id: string): Promise<void> =>
  sendJson<void>("DELETE", pathOf(site, id), {}, language.peek());

/** Where entries are sent over HTTP. */
export const ENTRIES = "/api/journal/entries";
/** And over MQTT. */
export const topicOf = (reporter: string): string => `pengan/1/${reporter}/entries`;

/** An entry as a reporter tells it: a station's valve opened, now. `station` is a record's id. */
export function exampleEntry(station: string, id: string, at: number): Record<string, unknown> {
  return { id, at, kind: "opened", station };
}
