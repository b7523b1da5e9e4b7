/** The planner on this phone: the server's own engine in a worker. It loads in the background and is never waited for. */

import { signal } from "@preact/signals";
import type { NightSheet } from "../night/sheet";
import type { ClockData } from "../site/clock";
import type { DocumentData } from "../site/document";

export interface PlannerState {
  /** `absent`: this browser cannot run it; effects are known after sync. */
  is: "waiting" | "loading" | "ready" | "absent";
  /** From 0 to 1 while loading. */
  progress: number;
}

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

/** The planner is not there, or was restarted while it worked. */
export class NoPlanner extends Error {}

/**
 * Work a night out. A later call of the same `topic` makes an earlier one that has not begun give way: it rejects with
 * `AbortError`. Raises `Unsound`, `NoPlanner`.
 */
export async function planNight(
  topic: string,
  document: DocumentData,
  night: string,
  before: NightSheet | null,
): Promise<Planned> {
  void topic;
  void document;
  void night;
  void before;
  throw new NoPlanner();
}
