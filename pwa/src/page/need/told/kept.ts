/** The last answers about the water need, kept on this phone for the time without signal. Whoever signs out leaves none. */

export interface KeptAnswer<Found> {
  found: Found;
  /** When it was answered, in seconds by this phone's clock; of which night, and of which revision of the site. */
  at: number;
  night: string;
  revision: number;
}

/** It begins as the names of all that `forgetLists` forgets. */
const FOLDER = "pengan.known.need ";
/** A season may take a hundred kilobytes: the oldest answers make room. */
const MOST = 24;

export function keptAnswer<Found>(key: string): KeptAnswer<Found> | null {
  return read<Found>(FOLDER + key);
}

export function keepAnswer<Found>(key: string, answer: KeptAnswer<Found>): void {
  try {
    localStorage.setItem(FOLDER + key, JSON.stringify(answer));
    makeRoom();
  } catch {
    // Without room nothing is kept: the next answer comes from the server or from the planner.
  }
}

function makeRoom(): void {
  const names = Object.keys(localStorage).filter((name) => name.startsWith(FOLDER));
  const oldest = names.map((name) => ({ name, at: read(name)?.at ?? 0 })).sort((a, b) => a.at - b.at);
  for (const { name } of oldest.slice(0, Math.max(0, names.length - MOST))) localStorage.removeItem(name);
}

function read<Found>(name: string): KeptAnswer<Found> | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(name) ?? "null");
    return kept && typeof kept === "object" && "found" in kept ? (kept as KeptAnswer<Found>) : null;
  } catch {
    // What an older page wrote differently is not known.
    return null;
  }
}
