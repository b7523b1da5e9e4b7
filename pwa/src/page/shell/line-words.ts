/** How the line to the server is told to people: in a chip, and in a banner. */

import type { Counts, LineState } from "../store/shapes";
import { totalOf } from "../store/unsent";
import { t, tn } from "../words/catalogue";
import { shortDay, timeOfDay } from "../words/moments";
import { unsentWords } from "./unsent-words";

/** How full the bowl beside the words is. */
export type Fill = "full" | "half" | "empty";

/** How the line is, with what goes beside the edits: where all of these are in step and a photo waits, it is on its way. */
export function wholeLine(line: LineState, unsent: number): LineState {
  return line.now === "in_step" && unsent > 0 ? { ...line, now: "sending" } : line;
}

export function lineFill(now: LineState["now"]): Fill {
  if (now === "in_step") return "full";
  return now === "sending" ? "half" : "empty";
}

/** A few words: whether this phone and the server hold the same. `unsent`: how much waits, of whatever kind. */
export function lineWords(line: LineState, unsent: number): string {
  const { now, spoke } = wholeLine(line, unsent);
  if (now === "in_step") return inStep(spoke);
  if (now === "sending")
    return unsent ? tn("Sending, {count} unsent", "Sending, {count} unsent", unsent) : t("Fetching");
  if (now === "signed_out") return t("Signed out");
  if (now === "update_needed") return t("Update needed");
  if (now === "starting") return t("Opening");
  return unsent ? tn("No signal, {count} unsent", "No signal, {count} unsent", unsent) : t("No signal");
}

function inStep(spoke: number | null): string {
  return spoke === null ? t("In step") : t("In step {time}", { time: whenHere(spoke, Date.now()) });
}

/** An instant on this phone's own wall: the time alone today, with its day before that. */
export function whenHere(seconds: number, nowMs: number): string {
  const wall = onWall(seconds * 1000);
  const day = dayOf(wall);
  const time = timeOfDay(wall).replaceAll(" ", "\u00a0");
  return day === dayOf(onWall(nowMs)) ? time : t("{day}, {time}", { day: shortDay(day), time });
}

function dayOf(wall: Date): string {
  return wall.toISOString().slice(0, 10);
}

function onWall(ms: number): Date {
  return new Date(ms - new Date(ms).getTimezoneOffset() * 60_000);
}

/** `since`: whole seconds since 1970 by this phone's clock; null where the server never answered. */
export function noSignalWords(since: number | null, unsent: Counts): string {
  const count = totalOf(unsent);
  const what = unsentWords(unsent);
  if (since === null) {
    if (!count) return t("No signal.");
    return tn("No signal. {what} is safe on this phone.", "No signal. {what} are safe on this phone.", count, { what });
  }
  const time = whenHere(since, Date.now());
  if (!count) return t("No signal since {time}. What you see is from then.", { time });
  return tn(
    "No signal since {time}. {what} is safe on this phone.",
    "No signal since {time}. {what} are safe on this phone.",
    count,
    { time, what },
  );
}

export function signedOutWords(name: string, unsent: Counts): string {
  const count = totalOf(unsent);
  const what = unsentWords(unsent);
  if (!count) return t("Signed out. What you see may be old.");
  if (!name) {
    return tn(
      "Signed out. {what} is safe on this phone, and waits until you sign in.",
      "Signed out. {what} are safe on this phone, and wait until you sign in.",
      count,
      { what },
    );
  }
  return tn(
    "Signed out. {what} is safe on this phone, and waits until {name} signs in.",
    "Signed out. {what} are safe on this phone, and wait until {name} signs in.",
    count,
    { what, name },
  );
}
