/** Hints from the server that something has changed. Where its stream has no room for this phone, it is asked instead. */

const STREAM = "/api/sync/nudges";
const REVISION = "/api/sync/revision";
const PATIENCE_MS = 15_000;
const OPEN_AFTER_MS = 4000;
export const ASK_EVERY_MS = 30_000;

export interface NudgeParts {
  site: string;
  /** Nobody is signed in: a reader of an open site asks from time to time, and leaves the streams to the crew. */
  stranger: boolean;
  /** The newest cursor this phone knows of. */
  cursor: () => number;
  nudged: () => void;
  /** An alarm has changed. */
  alarmed: () => void;
}

/** Listen from now on: the way to stop is handed back. Nothing is opened in the first moments, which belong to the page. */
export function listenForNudges(parts: NudgeParts): () => void {
  let source: EventSource | null = null;
  let asking: ReturnType<typeof setInterval> | undefined;
  const query = `?site=${encodeURIComponent(parts.site)}`;
  const ask = () => void askRevision(REVISION + query, parts);
  const askInstead = () => {
    source?.close();
    source = null;
    asking ??= setInterval(ask, ASK_EVERY_MS);
  };
  const open = () => {
    if (parts.stranger || typeof EventSource === "undefined") return askInstead();
    source = new EventSource(STREAM + query);
    source.addEventListener("nudge", (event) => told(event.data, parts));
    source.addEventListener("alarms", parts.alarmed);
    // A stream that ended is opened anew by the browser; one that was refused is closed for good.
    source.addEventListener("error", () => source?.readyState === EventSource.CLOSED && askInstead());
  };
  const opening = setTimeout(open, OPEN_AFTER_MS);
  return () => {
    clearTimeout(opening);
    clearInterval(asking);
    source?.close();
  };
}

async function askRevision(path: string, parts: NudgeParts): Promise<void> {
  if (document.visibilityState !== "visible") return;
  try {
    const answer = await fetch(path, { signal: AbortSignal.timeout(PATIENCE_MS), cache: "no-store" });
    if (answer.ok && answer.headers.has("Pengan-Protocol")) told(await answer.text(), parts);
  } catch {
    // No signal: the loop itself finds that out, and says so.
  }
}

function told(data: string, parts: NudgeParts): void {
  const { revision } = JSON.parse(data) as { revision: number };
  if (revision > parts.cursor()) parts.nudged();
}
