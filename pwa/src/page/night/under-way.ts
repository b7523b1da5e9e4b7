/** A night of which only the rest is planned, as on the server: `web/catch_up/tonight.py` has the same rule. */

import type { NightSheet } from "./sheet";

/** What a sheet says of which a rest was accepted after an interruption. */
const CAUGHT_UP = ["notice.worked_out", "notice.keeps_to_clock"];

/** Water has begun to run by this sheet, or a rest of it was accepted: it is never planned as a whole again. */
export function onlyItsRest(sheet: NightSheet, now: number): boolean {
  const tonight = sheet.starts <= now && now < sheet.ends;
  return tonight && (isCaughtUp(sheet) || sheet.runs.some((run) => run.start < now));
}

function isCaughtUp(sheet: NightSheet): boolean {
  return sheet.notices.some(({ code }) => CAUGHT_UP.includes(code));
}
