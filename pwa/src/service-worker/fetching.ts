/** Fetching that gives up: a phone in a dead corner may wait for ever otherwise. */

export async function patient(request: RequestInfo, ms: number, options: RequestInit = {}): Promise<Response> {
  const signals = [AbortSignal.timeout(ms), ...(options.signal ? [options.signal] : [])];
  return fetch(request, { ...options, signal: firstOf(signals) });
}

/** `AbortSignal.any`, which not every browser has. */
function firstOf(signals: AbortSignal[]): AbortSignal {
  const either = new AbortController();
  for (const signal of signals) {
    if (signal.aborted) either.abort(signal.reason);
    signal.addEventListener("abort", () => either.abort(signal.reason), { once: true });
  }
  return either.signal;
}
