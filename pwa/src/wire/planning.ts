/** What the page and the planner's worker say to each other. Types alone: neither room runs the other's code. */

/** The planner's files as the build lists them at `/planner/planner.json`. Every name changes with its content. */
export interface PlannerList {
  version: string;
  /** The folder in which Pyodide finds its own files. */
  runtime: string;
  library: string;
  engine: string;
  /** What Pyodide is told of other packages: which Python they would be for, and that there are none. */
  lock: { info: Record<"abi_version" | "arch" | "platform" | "python", string>; packages: Record<string, never> };
  files: { url: string; bytes: number; revision: null; integrity: string }[];
}

/** The page asks. `document` and `before` are JSON texts, as the engine reads and writes them. */
export type ToPlanner =
  /** `life`: the name of a lock that the worker holds for as long as it lives. */
  | { ask: "start"; list: PlannerList; life: string }
  | { ask: "plan"; id: number; document: string; night: string; effort: number; before: string | null }
  /** Anything else that the engine can be asked: `about` is a word of its own list, `given` a JSON object. */
  | { ask: "know"; id: number; about: string; document: string; given: string };

/** The worker answers. */
export type FromPlanner =
  /** Bytes. */
  | { tell: "progress"; done: number; of: number }
  | { tell: "ready"; version: string }
  /** It could not start, or can no longer go on. `line`: a file did not come. */
  | { tell: "failed"; why: string; line: boolean }
  | { tell: "planned"; id: number; sheet: string; clock: string }
  | { tell: "known"; id: number; found: string }
  | { tell: "faulty"; id: number; faults: string }
  /** This ask went wrong; the next one may go well. */
  | { tell: "lost"; id: number; why: string };
