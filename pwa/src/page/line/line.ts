/** The line that sync speaks over. An answer counts only where it is ours: anything else means keep and try again. */

export interface Reply {
  /** 0: nothing came back. */
  status: number;
  /** It is JSON and carries the protocol's header: no hotel's page for signing in. */
  ours: boolean;
  body: unknown;
  /** How long the server asks to be left alone. */
  wait_ms: number | null;
}

/** Sends one call of sync and hands back what came. Never raises: a broken line is a reply of status 0. */
export type Send = (path: string, body: unknown) => Promise<Reply>;

export const HEADER = "Pengan-Protocol";
export const PROTOCOL = 1;
export const SILENCE: Reply = { status: 0, ours: false, body: null, wait_ms: null };
export const PATIENCE_MS = 30_000;

/** The real line. `language` says in which language sentences in answers are to come. */
export function lineTo(base: string, language: () => string, patienceMs = PATIENCE_MS): Send {
  return async (path, body) => {
    const given = body === null ? {} : { method: "POST", body: JSON.stringify(body) };
    const headers = { "Accept-Language": language(), "Content-Type": "application/json" };
    try {
      const signal = AbortSignal.timeout(patienceMs);
      return await replyOf(await fetch(base + path, { ...given, headers, signal, cache: "no-store" }));
    } catch {
      return SILENCE;
    }
  };
}

/** What came back, as far as it is ours. Raises where the line breaks within the body. */
export async function replyOf(response: Response): Promise<Reply> {
  const kind = response.headers.get("Content-Type") ?? "";
  const ours = response.headers.get(HEADER) === String(PROTOCOL) && kind.includes("json");
  const wait_ms = waitOf(response.headers.get("Retry-After"));
  return { status: response.status, ours, body: ours ? await response.json() : null, wait_ms };
}

/** `Retry-After` is a number of seconds or a date (RFC 9110, section 10.2.3). */
export function waitOf(said: string | null, now: number = Date.now()): number | null {
  if (!said) return null;
  const seconds = /^\d+$/.test(said) ? Number(said) : (Date.parse(said) - now) / 1000;
  return Number.isFinite(seconds) ? Math.max(0, seconds) * 1000 : null;
}

/** Whether a phone may act on it. */
export function isAnswer(reply: Reply): boolean {
  return reply.status === 200 && reply.ours && typeof reply.body === "object" && reply.body !== null;
}

/** Whether the same call may fare better later: what is not ours always may. */
export function mayBeLater(reply: Reply): boolean {
  return !reply.ours || reply.status >= 500 || [401, 408, 425, 429].includes(reply.status);
}

/** What a problem says (RFC 9457), in the reader's language. */
export function detailOf(reply: Reply): string {
  const detail = (reply.body as { detail?: unknown } | null)?.detail;
  return typeof detail === "string" ? detail : "";
}

const FIRST_PAUSE_MS = 2000;
const LONGEST_PAUSE_MS = 5 * 60_000;

/** How long to wait after so many failures in a row: ever longer, and by chance, so that phones do not come all at once. */
export function pauseAfter(failures: number, chance: number, asked: number | null = null): number {
  const longest = Math.min(LONGEST_PAUSE_MS, FIRST_PAUSE_MS * 2 ** Math.min(failures, 20));
  return Math.max(asked ?? 0, longest * (0.5 + chance / 2));
}
