/** The one place that talks to the server. */

/** One thing that is wrong with what was sent. */
export interface FieldFault {
  field: string | null;
  code: string;
  detail: string;
}

/** A failure as the server words it (RFC 9457), or a broken line (status 0). */
export class LineFault extends Error {
  constructor(
    readonly status: number,
    readonly detail: string,
    readonly code = "",
    readonly fields: readonly FieldFault[] = [],
  ) {
    super(detail || String(status));
  }
}

const PATIENCE_MS = 20_000;

/** An answer of the API, in the reader's language where it says anything. Raises `LineFault`. */
export async function getJson<Answer>(path: string, language: string): Promise<Answer> {
  return (await asked(path, { headers: { "Accept-Language": language } })) as Answer;
}

/** Have the server do something. An answer without a body is undefined. Raises `LineFault`. */
export async function sendJson<Answer>(
  method: "POST" | "PUT" | "DELETE",
  path: string,
  body: unknown,
  language: string,
): Promise<Answer> {
  const headers = { "Accept-Language": language, "Content-Type": "application/json" };
  const sent = method === "DELETE" ? {} : { body: JSON.stringify(body) };
  return (await asked(path, { method, headers, ...sent })) as Answer;
}

const FILE_PATIENCE_MS = 120_000;

/** Send a file's content as it is, of this media type; what it makes of it may take the server a while. Raises
 * `LineFault`. */
export async function sendContent<Answer>(
  path: string,
  content: Blob,
  type: string,
  language: string,
): Promise<Answer> {
  const headers = { "Accept-Language": language, "Content-Type": type };
  return (await asked(path, { method: "POST", headers, body: content }, FILE_PATIENCE_MS)) as Answer;
}

async function asked(path: string, request: RequestInit, patience_ms = PATIENCE_MS): Promise<unknown> {
  const { response, body } = await answered(path, request, patience_ms);
  if (response.status === 204) return undefined;
  const kind = response.headers.get("Content-Type") ?? "";
  if (!kind.includes("json") || body === undefined) throw new LineFault(0, "");
  if (!response.ok) throw faultOf(response.status, body);
  return body;
}

/** The line may break, or the time run out, while the body still comes. A body that is no JSON is undefined. */
async function answered(
  path: string,
  request: RequestInit,
  patience_ms: number,
): Promise<{ response: Response; body: unknown }> {
  try {
    const response = await fetch(path, { ...request, signal: AbortSignal.timeout(patience_ms) });
    const text = await response.text();
    return { response, body: read(text) };
  } catch {
    throw new LineFault(0, "");
  }
}

function read(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

function faultOf(status: number, body: unknown): LineFault {
  const { detail, code, fields } = (body ?? {}) as { detail?: unknown; code?: unknown; fields?: unknown };
  const faults = Array.isArray(fields) ? (fields as FieldFault[]) : [];
  return new LineFault(status, typeof detail === "string" ? detail : "", typeof code === "string" ? code : "", faults);
}
