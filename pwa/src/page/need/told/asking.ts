/** Who answers a question about the water need: the server, this phone's own planner, or an answer that was kept. */

import { getJson, LineFault } from "../../line/fetching";
import { askEngine, NoPlanner, Unsound } from "../../planner/planner";
import type { DocumentData } from "../../site/document";
import { type KeptAnswer, keepAnswer, keptAnswer } from "./kept";

/** `about` is the engine's word for it; `night` empty: tonight, whose date is not known here; `of` a turn or hydrozone. */
export interface Question {
  about: "night" | "work" | "season";
  night: string;
  of: string;
}

/** Where the phone stands as it asks. */
export interface Ground {
  /** Whose copy of which site. */
  whose: string;
  site: string;
  revision: number;
  /** There is a line to the server. */
  heard: boolean;
  /** Edits that the server does not know of yet. */
  unsent: number;
  planner: boolean;
  document: DocumentData;
  language: string;
}

export interface Told<Found> {
  found: Found | null;
  /** Null: nobody could answer. `kept`: it may be out of date. */
  from: "server" | "phone" | "kept" | null;
  /** When the server answered, in seconds by this phone's clock. */
  at: number | null;
  /** It knows of the unsent edits. */
  counted: boolean;
  /** What the server said instead of an answer. */
  detail: string;
}

export type Way = "server" | "kept" | "phone" | "stale";

/**
 * Who is to be asked, the best first. The server alone knows what past nights brought; the phone alone its unsent edits.
 * A kept answer of the same night and revision is as good as the server's, and others come last.
 */
export function waysOf(ground: Pick<Ground, "heard" | "unsent" | "planner">, fits: boolean, kept: boolean): Way[] {
  const server: Way[] = ground.heard ? ["server"] : [];
  const phone: Way[] = ground.planner ? ["phone"] : [];
  const same: Way[] = fits ? ["kept"] : [];
  const stale: Way[] = kept && !fits ? ["stale"] : [];
  return ground.unsent > 0 ? [...phone, ...server, ...same, ...stale] : [...server, ...same, ...phone, ...stale];
}

export async function answerTo<Found>(question: Question, ground: Ground): Promise<Told<Found>> {
  const kept = keptAnswer<Found>(keyOf(question, ground));
  const fits = kept?.night === question.night && kept.revision === ground.revision;
  for (const way of waysOf(ground, fits, kept !== null)) {
    const told = await byWay(way, question, ground, kept);
    if (told) return told;
  }
  return { found: null, from: null, at: null, counted: false, detail: "" };
}

/** Null: this way leads nowhere just now. */
async function byWay<Found>(
  way: Way,
  question: Question,
  ground: Ground,
  kept: KeptAnswer<Found> | null,
): Promise<Told<Found> | null> {
  if (way === "server") return await askServer(question, ground);
  if (way === "phone") return await askPhone(question, ground);
  const from = way === "kept" ? "server" : "kept";
  return kept && { found: kept.found, from, at: kept.at, counted: ground.unsent === 0, detail: "" };
}

async function askServer<Found>(question: Question, ground: Ground): Promise<Told<Found> | null> {
  const counted = ground.unsent === 0;
  try {
    const found = await getJson<Found>(pathOf(question, ground.site), ground.language);
    const at = Math.floor(Date.now() / 1000);
    keepAnswer(keyOf(question, ground), { found, at, night: question.night, revision: ground.revision });
    return { found, from: "server", at, counted, detail: "" };
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    if (fault.status !== 404) return null;
    return { found: null, from: "server", at: null, counted, detail: fault.detail };
  }
}

async function askPhone<Found>(question: Question, { document, unsent }: Ground): Promise<Told<Found> | null> {
  const { about, night, of } = question;
  if (!night) return null;
  const given = { night, turn: of, hydrozone: of };
  try {
    const found = await askEngine<Found | null>(`need ${about} ${of}`, about, document, given);
    return { found, from: "phone", at: null, counted: unsent > 0, detail: "" };
  } catch (fault) {
    if (fault instanceof NoPlanner || fault instanceof Unsound) return null;
    throw fault;
  }
}

/** The server's address of the answer; `table`: of the same as CSV. */
export function pathOf({ about, night, of }: Question, site: string, table = false): string {
  const base = `/api/sites/${encodeURIComponent(site)}/need`;
  const [one, on] = [encodeURIComponent(of), night || "tonight"];
  if (about === "season") return `${base}/hydrozones/${one}/season${table ? ".csv" : ""}${night && `?until=${night}`}`;
  if (about === "work") return `${base}/${on}/turns/${one}${table ? "/table.csv" : ""}`;
  return `${base}/${on}`;
}

function keyOf({ about, of }: Question, { whose, site }: Ground): string {
  return `${whose} ${site} ${about} ${of}`;
}
