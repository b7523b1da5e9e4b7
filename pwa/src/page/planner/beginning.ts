/** When the planner is loaded: once the first screen stands and the page has nothing else to do. */

import { canRun, desk } from "./planner";
import { followOutbox } from "./replan";

/** The night is drawn within it, and nothing shall make that slower. */
const DRAWN_MS = 600;
const IDLE_WITHIN_MS = 2000;
/** Where a browser does not say when it is idle. */
const CALM_MS = 300;

export function followPlanner(): void {
  if (!canRun((navigator as { deviceMemory?: number }).deviceMemory)) {
    desk.giveUp();
    return;
  }
  addEventListener("online", () => void desk.start());
  followOutbox();
  setTimeout(whenIdle, DRAWN_MS, () => void desk.start());
}

function whenIdle(begin: () => void): void {
  if ("requestIdleCallback" in globalThis) requestIdleCallback(begin, { timeout: IDLE_WITHIN_MS });
  else setTimeout(begin, CALM_MS);
}
