/** Reporters of a site, and how one tells what happens. */

import { type Sender, sendersUnder } from "../senders/sender-api";

export interface Reporter extends Sender {
  taken: number;
  aside: number;
}

export const reporters = sendersUnder<Reporter>("reporters");

/** Where entries are sent over HTTP. */
export const ENTRIES = "/api/journal/entries";
/** And over MQTT. */
export const topicOf = (reporter: string): string => `pengan/1/${reporter}/entries`;

/** An entry as a reporter tells it: a station's valve opened, now. `station` is a record's id. */
export function exampleEntry(station: string, id: string, at: number): Record<string, unknown> {
  return { id, at, kind: "opened", station };
}
