/** One round of sync: greet where that is due, send the outbox, ask for what has changed. It decides about no timer. */

import { detailOf, isAnswer, mayBeLater, PROTOCOL, type Reply, type Send } from "../line/line";
import type { Page } from "../store/pulled";
import type { Answer } from "../store/shapes";
import type { Store } from "../store/store";

/** Who the server takes this phone for. */
export interface SignedIn {
  person: string;
  device: string;
  profile: { name: string };
  sites: { site: string; role: "manager" | "lead" | "crew" }[];
}

export interface Greeting {
  outcome: "ok" | "update_needed" | "start_over" | "signed_out";
  now: number;
  signed_in: SignedIn | null;
}

/** How a round ended. `other`: somebody else is signed in here by now. `lost`: the site may not be read any more.
 * `found`: a site is known by now, and can be asked for. */
export type Ending =
  | { how: "in_step" | "signed_out" | "update_needed" | "lost" | "later" | "found" }
  | { how: "silent"; wait_ms: number | null }
  | { how: "other"; signed_in: SignedIn };

export interface RoundParts {
  store: Store;
  send: Send;
  device: string | null;
  app_version: string;
  /** Greet first: at the start, after a silence, and where an answer was odd. */
  greet: boolean;
  heard: (greeting: Greeting) => void;
}

const PUSH = "/api/sync/push";
const PULL = "/api/sync/pull";
const HELLO = "/api/sync/hello";
const MOST_PUSHES = 200;
const MOST_PAGES = 400;

export async function round(parts: RoundParts): Promise<Ending> {
  const greeted = parts.greet ? await greet(parts) : null;
  if (greeted && greeted.how !== "in_step" && greeted.how !== "lost") return greeted;
  const pushed = await push(parts);
  if (pushed && !("status" in pushed)) return pushed;
  if (pushed) return await oddly(parts, pushed);
  if (greeted?.how === "lost") return await leave(parts.store);
  const pulled = await pull(parts);
  return "how" in pulled ? pulled : await oddly(parts, pulled);
}

/** Say hello. `in_step`: go on. */
async function greet(parts: RoundParts): Promise<Ending> {
  const { store } = parts;
  const { cursor, scope } = store.asked;
  const said = { protocol: PROTOCOL, app_version: parts.app_version, device: parts.device };
  const person = store.owner || null;
  const reply = await parts.send(HELLO, { ...said, person, site: store.site, cursor, scope });
  if (isAnswer(reply)) return greeted(parts, reply.body as Greeting);
  if (reply.ours && (reply.status === 403 || reply.status === 404)) return { how: "lost" };
  return silent(reply);
}

function greeted(parts: RoundParts, greeting: Greeting): Ending {
  parts.heard(greeting);
  const { signed_in, outcome } = greeting;
  const { owner } = parts.store;
  if (outcome === "update_needed") return { how: "update_needed" };
  if (signed_in && signed_in.person !== owner) return { how: "other", signed_in };
  if (!signed_in && owner) return { how: "signed_out" };
  return { how: "in_step" };
}

/** A reply that is neither an answer nor silence: who we are, and whether we may still read, is asked anew. */
async function oddly(parts: RoundParts, reply: Reply): Promise<Ending> {
  const greeted = await greet(parts);
  const closed = greeted.how === "in_step" && !parts.store.owner && [403, 404].includes(reply.status);
  if (greeted.how === "lost" || closed) return await leave(parts.store);
  return greeted.how === "in_step" ? silent(reply) : greeted;
}

/** The site may not be read any more: the copy leaves the phone once nothing is unsent. */
async function leave(store: Store): Promise<Ending> {
  return { how: (await store.forgetSite()) ? "lost" : "later" };
}

function silent(reply: Reply): Ending {
  return { how: "silent", wait_ms: reply.wait_ms };
}

/** Send the outbox until it is empty. Null: it is. A reply: one that asks for a greeting. */
async function push(parts: RoundParts): Promise<Ending | Reply | null> {
  let alone = false;
  for (let turn = 0; turn < MOST_PUSHES; turn++) {
    const body = await parts.store.nextPush(parts.device, alone);
    if (!body) return null;
    const reply = await parts.send(PUSH, body);
    if (isAnswer(reply)) {
      const { answers, unanswered } = reply.body as { answers: Answer[]; unanswered: string[] };
      await parts.store.takeAnswers(answers);
      if (unanswered.length || !answers.length) return { how: "later" };
    } else if (reply.ours && reply.status === 401) {
      return reply;
    } else if (mayBeLater(reply)) {
      return silent(reply);
    } else if (body.sets.length > 1) {
      // One of them cannot be read: alone each of them shows what becomes of it.
      alone = true;
    } else {
      await parts.store.putAside(body.sets[0]?.id ?? "", reply.status, detailOf(reply));
    }
  }
  return { how: "later" };
}

/** Ask for what has changed, page by page, and keep it only once all of it is there. */
async function pull(parts: RoundParts): Promise<Ending | Reply> {
  const { store } = parts;
  const asked = store.asked;
  const pages: Page[] = [];
  for (let turn = 0; turn < MOST_PAGES; turn++) {
    const last = pages.at(-1);
    const from = last ? { after: last.next, scope: last.scope } : { scope: asked.scope };
    const about = { site: store.site, person: store.owner || null, cursor: asked.cursor, sheets: asked.sheets };
    const reply = await parts.send(PULL, { ...about, ...from });
    if (!isAnswer(reply)) return oddPull(reply);
    const page = reply.body as Page;
    if (!store.owner && page.role !== null) return { how: "later" };
    pages.push(page);
    if (page.next === null) {
      const taken = await store.takePull(asked, pages);
      if (!taken) return { how: "later" };
      return { how: "in_step" };
    }
  }
  return { how: "later" };
}

function oddPull(reply: Reply): Ending | Reply {
  return reply.ours && [401, 403, 404].includes(reply.status) ? reply : silent(reply);
}
