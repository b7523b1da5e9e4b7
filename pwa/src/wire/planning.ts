/** What the page and the planner's worker say to each other. Types alone: neither room runs the other's code. */

/** The page asks. `document` and `before` are JSON texts, as the engine reads and writes them. */
export type ToPlanner =
  | { ask: "start"; base: string }
  | {
      ask: "plan";
      id: number;
      document: string;
      night: string;
      effort: number;
      before: string | null;
      now: number | null;
    };

/** The worker answers. */
export type FromPlanner =
  | { tell: "progress"; done: number; of: number }
  | { tell: "ready"; version: string }
  | { tell: "failed"; why: string }
  | { tell: "planned"; id: number; sheet: string; clock: string }
  | { tell: "faulty"; id: number; faults: string };
