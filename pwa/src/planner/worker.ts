/** The planner's room: the engine in Pyodide, beside the page and never in its way. */

import type { FromPlanner, ToPlanner } from "../wire/planning";
import { LineBroke } from "./counting";
import { live } from "./life";
import { type Engine, loadEngine } from "./loading";

declare const self: DedicatedWorkerGlobalScope;

type Plan = Extract<ToPlanner, { ask: "plan" }>;
type Know = Extract<ToPlanner, { ask: "know" }>;
type Start = Extract<ToPlanner, { ask: "start" }>;

let engine: Engine | null = null;

self.addEventListener("message", ({ data }: MessageEvent<ToPlanner>) => {
  if (data.ask === "start") void start(data);
  else tell(answered(data));
});

// Some of what goes wrong inside Pyodide's own start is told to nobody else.
self.addEventListener("unhandledrejection", ({ reason }) => {
  tell({ tell: "failed", why: String(reason), line: reason instanceof LineBroke });
});

async function start({ list, life }: Start): Promise<void> {
  try {
    await live(life);
    engine = await loadEngine(list, (done, of) => tell({ tell: "progress", done, of }));
    tell({ tell: "ready", version: engine.version });
  } catch (error) {
    tell({ tell: "failed", why: String(error), line: error instanceof LineBroke });
  }
}

function answered(data: Plan | Know): FromPlanner {
  const { id } = data;
  if (!engine) return { tell: "lost", id, why: "asked before the start" };
  try {
    return data.ask === "plan" ? plan(engine, data) : know(engine, data);
  } catch (error) {
    const why = String(error);
    return isOver(error) ? { tell: "failed", why, line: false } : { tell: "lost", id, why };
  }
}

function plan(here: Engine, { id, document, night, effort, before }: Plan): FromPlanner {
  const [kind, first = "", second = ""] = here.answer(document, night, effort, before ?? "").split("\n");
  if (kind === "faulty") return { tell: "faulty", id, faults: first };
  return { tell: "planned", id, sheet: first, clock: second };
}

function know(here: Engine, { id, about, document, given }: Know): FromPlanner {
  const [kind, first = ""] = here.known(about, document, given).split("\n");
  return kind === "faulty" ? { tell: "faulty", id, faults: first } : { tell: "known", id, found: first };
}

/** Python that ran out of memory, or stopped for good, is of no more use. What it raised otherwise is about one ask. */
function isOver(error: unknown): boolean {
  const raised = error instanceof Error && error.name === "PythonError";
  return !raised || ("type" in error && error.type === "MemoryError");
}

function tell(word: FromPlanner): void {
  self.postMessage(word);
}
