/**
 * What the first screen needs, in one file: many small ones cost more in heads and round trips than they save. Which
 * files those are stands in `first-screen.json`, where the catalogues find it too: `later` is fetched when it is first
 * shown, or by another room.
 */

import files from "./first-screen.json" with { type: "json" };

const ROOMS = new RegExp(files.rooms);
const WORDS = new RegExp(files.words);
const LATER = new RegExp(files.later);
const LIBRARIES = /\/node_modules\/(?:preact|@preact)\//;

export function isOfFirstScreen(id: string): boolean {
  return (ROOMS.test(id) || WORDS.test(id) || LIBRARIES.test(id)) && !LATER.test(id);
}
