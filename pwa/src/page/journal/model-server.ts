/** A server of journals for tests: it takes each id once, keeps aside what it cannot read, and its line may do anything. */

import { type Reply, type Send, SILENCE } from "../line/line";
import type { Answer } from "./kept";
import type { Told } from "./shapes";

export type Delivery = "sound" | "lost" | "reply lost" | "doubled" | "login page" | "busy" | "signed out";

const LOGIN_PAGE: Reply = { status: 200, ours: false, body: null, wait_ms: null };

export class JournalServer {
  readonly taken: { entry: Told; by: string; site: string }[] = [];
  /** Who is signed in by the cookie; empty: nobody. */
  cookie = "ines";
  /** Sites at which nobody may tell anything any more. */
  readonly closed = new Set<string>();
  calls = 0;

  /** The line: each call is delivered as the next word says, and soundly after the last one. */
  line(deliveries: Delivery[] = []): Send {
    return async (path, body) => {
      this.calls += 1;
      const how = deliveries.shift() ?? "sound";
      if (how === "lost") return SILENCE;
      if (how === "login page") return LOGIN_PAGE;
      if (how === "busy") return { status: 503, ours: true, body: {}, wait_ms: 1000 };
      if (how === "signed out") return { status: 401, ours: true, body: {}, wait_ms: null };
      const reply = this.answer(path, body);
      if (how === "doubled") return this.answer(path, body);
      return how === "reply lost" ? SILENCE : reply;
    };
  }

  private answer(path: string, body: unknown): Reply {
    const site = decodeURIComponent(path.split("/")[3] ?? "");
    if (this.closed.has(site)) return problem(404, "There is no such site.");
    if (body === null) return well(this.page(site, new URL(path, "http://x").searchParams));
    const { person, entries } = body as { person: string; entries: Told[] };
    if (person !== this.cookie) return problem(401, "These entries are somebody else's.");
    return well({ answers: entries.map((entry) => this.take(site, person, entry)) });
  }

  private take(site: string, person: string, entry: Told): Answer {
    if (this.taken.some((one) => one.entry.id === entry.id)) return { id: entry.id, outcome: "known", faults: [] };
    if (entry.kind === "note" && !entry.text) {
      return { id: entry.id, outcome: "aside", faults: [{ field: "text", code: "missing", detail: "Missing." }] };
    }
    this.taken.push({ entry: structuredClone(entry), by: `person:${person}`, site });
    return { id: entry.id, outcome: "taken", faults: [] };
  }

  private page(site: string, asked: URLSearchParams) {
    const since = Number(asked.get("since"));
    const found = this.taken.flatMap((one, place) =>
      one.site === site && place + 1 > since
        ? [{ ...one.entry, by: one.by, number: place + 1, arrived_at: one.entry.at }]
        : [],
    );
    const entries = found.slice(0, 2);
    const next = found.length > 2 ? String(entries.at(-1)?.number) : null;
    return { entries, names: { "person:ines": "Inês" }, next, newest: this.taken.length };
  }
}

function well(body: unknown): Reply {
  return { status: 200, ours: true, body: structuredClone(body), wait_ms: null };
}

function problem(status: number, detail: string): Reply {
  return { status, ours: true, body: { code: "x", detail }, wait_ms: null };
}
