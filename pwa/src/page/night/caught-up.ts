/** Whether a rest of this night was worked out after an interruption: it is never planned as a whole again then. */

import type { NightSheet } from "./sheet";

const SAID = ["notice.worked_out", "notice.keeps_to_clock"];

export function isCaughtUp(sheet: NightSheet | null): boolean {
  return sheet?.notices.some(({ code }) => SAID.includes(code)) ?? false;
}
