/** The one place that talks to the server. */

/** A failure as the server words it (RFC 9457), or a broken line. */
export class LineFault extends Error {
  constructor(
    readonly status: number,
    readonly detail: string,
  ) {
    super(detail || String(status));
  }
}

const PATIENCE_MS = 20_000;

/** An answer of the API, in the reader's language where it says anything. Raises `LineFault`. */
export async function getJson<Answer>(path: string, language: string): Promise<Answer> {
  const response = await answered(path, language);
  const kind = response.headers.get("Content-Type") ?? "";
  if (!kind.includes("json")) throw new LineFault(response.status, "");
  const body: unknown = await response.json();
  if (!response.ok) throw new LineFault(response.status, detailOf(body));
  return body as Answer;
}

async function answered(path: string, language: string): Promise<Response> {
  try {
    return await fetch(path, { headers: { "Accept-Language": language }, signal: AbortSignal.timeout(PATIENCE_MS) });
  } catch {
    throw new LineFault(0, "");
  }
}

function detailOf(body: unknown): string {
  const detail = (body as { detail?: unknown } | null)?.detail;
  return typeof detail === "string" ? detail : "";
}
