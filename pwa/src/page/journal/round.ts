/** One round with a site's journal: send what is told, then ask for what came. It decides about no timer. */

import { detailOf, isAnswer, mayBeLater, type Reply, type Send } from "../line/line";
import type { Database } from "../store/database";
import type { Ending } from "../sync/round";
import {
  type Answer,
  type EntryPage,
  followedBy,
  KEPT_DAYS,
  setAside,
  takeAnswers,
  takePage,
  toldOf,
  type Whose,
} from "./kept";
import { KINDS, type Kind, type ToldRow } from "./shapes";

export interface JournalParts {
  database: Database;
  of: Whose;
  send: Send;
  /** Whole seconds since 1970, by the server's clock where that is known. */
  now: number;
}

const MOST_SENT = 200;
const MOST_ROUNDS = 100;
const IN_ONE_GO = 1000;
const DAY_S = 24 * 3600;
/** What comes every few seconds is looked up where somebody asks for it. */
const NOT_KEPT: readonly Kind[] = ["flow", "alive"];
export const KEPT_KINDS = KINDS.filter((kind) => !NOT_KEPT.includes(kind));

export async function journalRound(parts: JournalParts): Promise<Ending> {
  return (await tellAll(parts)) ?? (await askForAll(parts));
}

/** Send what its person told, site by site. Null: nothing waits any more. */
async function tellAll(parts: JournalParts): Promise<Ending | null> {
  let alone = false;
  for (let turn = 0; turn < MOST_ROUNDS; turn++) {
    const rows = nextRows(await toldOf(parts.database, parts.of.owner), alone ? 1 : MOST_SENT);
    const site = rows[0]?.site;
    if (site === undefined) return null;
    const body = { person: parts.of.owner, entries: rows.map((row) => row.entry) };
    const reply = await parts.send(`/api/sites/${encodeURIComponent(site)}/journal`, body);
    if (isAnswer(reply)) await takeAnswers(parts.database, parts.of.owner, answersIn(reply, rows));
    else if (mayBeLater(reply)) return silent(reply);
    else if (rows.length > 1) alone = true;
    else await turnedAway(parts, rows, reply);
  }
  return { how: "later" };
}

/** The first entries that can be sent, all of one site. */
function nextRows(told: readonly ToldRow[], most: number): ToldRow[] {
  const waiting = told.filter((row) => !row.taken && row.faults === null);
  return waiting.filter((row) => row.site === waiting[0]?.site).slice(0, most);
}

/** Whatever the server's answer leaves out is not answered. Raises where it answers nothing, so that nobody asks for ever. */
function answersIn(reply: Reply, rows: readonly ToldRow[]): Answer[] {
  const { answers } = reply.body as { answers: Answer[] };
  const ours = answers.filter((answer) => rows.some((row) => row.id === answer.id));
  if (!ours.length) throw new Error("the server has answered no entry");
  return ours;
}

/** The call itself will not fare better later, as where one works at the site no more. */
async function turnedAway(parts: JournalParts, rows: readonly ToldRow[], reply: Reply): Promise<void> {
  const { code } = (reply.body ?? {}) as { code?: string };
  const fault = { field: null, code: code ?? String(reply.status), detail: detailOf(reply) };
  const ids = rows.map((row) => row.id);
  await setAside(parts.database, parts.of.owner, ids, fault);
}

/** Ask for what arrived since, page by page; each is kept with how far it leads. */
async function askForAll(parts: JournalParts): Promise<Ending> {
  for (let turn = 0; turn < MOST_ROUNDS; turn++) {
    const { entries: since } = await followedBy(parts.database, parts.of);
    const reply = await parts.send(pathOf(parts, since ?? 0), null);
    // Who may not read this journal is told so by sync itself.
    if (reply.ours && [403, 404].includes(reply.status)) return { how: "in_step" };
    if (!isAnswer(reply)) return silent(reply);
    const page = reply.body as EntryPage;
    if (!(await takePage(parts.database, parts.of, since, page))) return { how: "later" };
    if (page.next === null) return { how: "in_step" };
  }
  return { how: "later" };
}

function pathOf({ of, now }: JournalParts, since: number): string {
  const asked = new URLSearchParams({ since: String(since), limit: String(IN_ONE_GO) });
  if (now) asked.set("starts", String(now - KEPT_DAYS * DAY_S));
  for (const kind of KEPT_KINDS) asked.append("kind", kind);
  return `/api/sites/${encodeURIComponent(of.site)}/journal?${asked}`;
}

function silent(reply: Reply): Ending {
  return { how: "silent", wait_ms: reply.wait_ms };
}
