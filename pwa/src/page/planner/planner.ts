/** The planner on this phone: the server's own engine in a worker. It loads in the background and is never waited for. */

import { signal } from "@preact/signals";
import { serverTime } from "../night/now";
import type { NightSheet } from "../night/sheet";
import { onlyItsRest } from "../night/under-way";
import type { ClockData } from "../site/clock";
import type { DocumentData } from "../site/document";
import { type Answer, Desk, type DeskState, type Job, NoPlanner } from "./desk";
import type { WorkerLike } from "./hand";
import { askForList } from "./listing";

export { NoPlanner };

/** `absent`: this browser cannot run it; effects are known after sync. `progress` goes from 0 to 1 while it loads. */
export type PlannerState = DeskState;

export const planner = signal<PlannerState>({ is: "waiting", progress: 0 });

export interface Planned {
  sheet: NightSheet;
  clock: ClockData;
}

/** The document breaks rules of the domain: every fault, as the engine words it. */
export class Unsound extends Error {
  constructor(
    readonly faults: {
      table: string;
      record: string;
      field: string | null;
      code: string;
      params: Record<string, unknown>;
    }[],
  ) {
    super("unsound");
  }
}

/** Constructions for an effect that somebody waits for: an earlier sheet's order makes up for what is not tried. */
const QUICK = 3;

export interface How {
  /** Constructions; the server takes 8 for a night that an edit has changed. */
  effort?: number;
  /** Nobody waits for it with a screen open: it lets others go first. */
  lazy?: boolean;
}

/** `memory` is in GB, as browsers round it; undefined where they keep it to themselves. */
const LEAST_MEMORY_GB = 2;

export const desk = new Desk({
  make: () =>
    new Worker(new URL("../../planner/worker.ts", import.meta.url), { type: "module", name: "planner" }) as WorkerLike,
  list: askForList,
  tell: (state) => {
    planner.value = state;
  },
});

/** Whether it is worth a try here. */
export function canRun(memoryGb: number | undefined): boolean {
  return "WebAssembly" in globalThis && "Worker" in globalThis && (memoryGb ?? LEAST_MEMORY_GB) >= LEAST_MEMORY_GB;
}

/**
 * Work a night out; of one that is under way, as on the server, only what is still to come. A later call of the same
 * `topic` makes an earlier one that has not begun give way: it rejects with `AbortError`. Raises `Unsound`, `NoPlanner`.
 */
export async function planNight(
  topic: string,
  document: DocumentData,
  night: string,
  before: NightSheet | null,
  { effort = QUICK, lazy = false }: How = {},
): Promise<Planned> {
  const now = serverTime();
  if (before && onlyItsRest(before, now)) {
    return await askEngine<Planned>(topic, "rest", document, { before, now, effort }, lazy);
  }
  const job = { document: asText(document), night, effort, before: before && JSON.stringify(before) };
  const answer = await soundly(topic, lazy, job);
  if (answer.tell !== "planned") throw new Error(`a night was answered with ${answer.tell}`);
  return { sheet: JSON.parse(answer.sheet) as NightSheet, clock: JSON.parse(answer.clock) as ClockData };
}

/**
 * Ask the engine for anything else: `about` is a word of `pengan/engine/phone/known.py`, and where that is about
 * figures alone there is no document. A later call of the same `topic` makes an earlier one that has not begun give
 * way. Raises as `planNight` does.
 */
export async function askEngine<Found>(
  topic: string,
  about: string,
  document: DocumentData | null,
  given: object,
  lazy = false,
): Promise<Found> {
  const job = { about, document: document ? asText(document) : "", given: JSON.stringify(given) };
  const answer = await soundly(topic, lazy, job);
  if (answer.tell !== "known") throw new Error(`${about} was answered with ${answer.tell}`);
  return JSON.parse(answer.found) as Found;
}

async function soundly(topic: string, lazy: boolean, job: Job): Promise<Exclude<Answer, { tell: "faulty" }>> {
  const answer = await desk.ask(topic, lazy, job);
  if (answer.tell === "faulty") throw new Unsound(JSON.parse(answer.faults) as Unsound["faults"]);
  return answer;
}

function asText({ format, records }: DocumentData): string {
  return JSON.stringify({ format, records });
}
