/** How the line to the server is told to people: in a chip, and in a banner. */

import type { LineState } from "../store/shapes";
import { t, tn } from "../words/catalogue";
import { shortDay, timeOfDay } from "../words/moments";

/** How full the bowl beside the words is. */
export type Fill = "full" | "half" | "empty";

export function lineFill(now: LineState["now"]): Fill {
  if (now === "in_step") return "full";
  return now === "sending" ? "half" : "empty";
}

/** A few words: whether this phone and the server hold the same. */
export function lineWords(line: LineState, unsent: number): string {
  if (line.now === "in_step") return inStep(line.spoke);
  if (line.now === "sending")
    return unsent ? tn("Sending {count} edit", "Sending {count} edits", unsent) : t("Fetching");
  if (line.now === "signed_out") return t("Signed out");
  if (line.now === "update_needed") return t("Update needed");
  if (line.now === "starting") return t("Opening");
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
export function noSignalWords(since: number | null, unsent: number): string {
  if (since === null) return withoutSince(unsent);
  const time = whenHere(since, Date.now());
  if (!unsent) return t("No signal since {time}. What you see is from then.", { time });
  return tn(
    "No signal since {time}. {count} unsent edit is safe on this phone.",
    "No signal since {time}. {count} unsent edits are safe on this phone.",
    unsent,
    { time },
  );
}

function withoutSince(unsent: number): string {
  if (!unsent) return t("No signal.");
  return tn(
    "No signal. {count} unsent edit is safe on this phone.",
    "No signal. {count} unsent edits are safe on this phone.",
    unsent,
  );
}

export function signedOutWords(name: string, unsent: number): string {
  if (!unsent) return t("Signed out. What you see may be old.");
  if (!name) {
    return tn(
      "Signed out. {count} unsent edit is safe on this phone, and waits until you sign in.",
      "Signed out. {count} unsent edits are safe on this phone, and wait until you sign in.",
      unsent,
    );
  }
  return tn(
    "Signed out. {count} unsent edit is safe on this phone, and waits until {name} signs in.",
    "Signed out. {count} unsent edits are safe on this phone, and wait until {name} signs in.",
    unsent,
    { name },
  );
}
