/** What was last read of the history, kept on this phone to be read without signal. It is a copy and nothing rests on it. */

const PREFIX = "pengan.read.";

export function keptPage<Page>(what: string, of: string): Page | null {
  try {
    const found = localStorage.getItem(`${PREFIX}${what}.${of}`);
    return found ? (JSON.parse(found) as Page) : null;
  } catch {
    // No storage, or what an older app wrote: then nothing was kept.
    return null;
  }
}

export function keepPage(what: string, of: string, page: unknown): void {
  try {
    localStorage.setItem(`${PREFIX}${what}.${of}`, JSON.stringify(page));
  } catch {
    // Without room it is read from the server each time, which is all that can be done.
  }
}
