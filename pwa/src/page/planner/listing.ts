/** The list of the planner's files: what the phone keeps, or else what the server has. */

import type { PlannerList } from "../../wire/planning";

const LIST = "/planner/planner.json";
const PATIENCE_MS = 20_000;

/** Null: neither the phone nor the line has it now. */
export async function askForList(): Promise<PlannerList | null> {
  try {
    const answer = await fetch(LIST, { signal: AbortSignal.timeout(PATIENCE_MS), cache: "no-cache" });
    const kind = answer.headers.get("Content-Type") ?? "";
    return answer.ok && kind.includes("json") ? ((await answer.json()) as PlannerList) : null;
  } catch {
    return null;
  }
}
