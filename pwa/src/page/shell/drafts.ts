/** What is half typed, and has to be safe before the page opens anew. */

type Saver = () => void | Promise<void>;

const savers = new Set<Saver>();
/** A reload that waits for ever would be worse than a lost draft. */
const PATIENCE_MS = 3000;

/** Call `save` before any reload of the app's own making. Returns what ends that. */
export function beforeReload(save: Saver): () => void {
  savers.add(save);
  return () => savers.delete(save);
}

export async function saveDrafts(): Promise<void> {
  const saved = Promise.allSettled([...savers].map(async (save) => save()));
  await Promise.race([saved, new Promise((done) => setTimeout(done, PATIENCE_MS))]);
}
