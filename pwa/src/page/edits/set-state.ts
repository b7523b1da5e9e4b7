/** How far a set of edits has come: on this phone, on its way, in force, or waiting for somebody to decide. */

import { line } from "../store/queries";
import type { Edit, Waiting } from "../store/shapes";
import { t } from "../words/catalogue";

export type SetState = "unsent" | "sending" | "in_force" | Waiting["tray"];

/** The worst that happened to any of its edits; a set too large for one call is sent in several. */
export function stateOf(set: string, unsent: readonly Edit[], waiting: readonly Waiting[]): SetState {
  const stuck = waiting.find((one) => one.edit.set === set || one.edit.together === set);
  if (stuck) return stuck.tray;
  const own = unsent.filter((edit) => edit.set === set || ("together" in edit && edit.together === set));
  if (own.length === 0) return "in_force";
  return own.every((edit) => edit.sent) ? "sending" : "unsent";
}

export function stateWords(state: SetState): string {
  const words: Record<SetState, () => string> = {
    unsent: () => t("Saved on this phone. Unsent."),
    // It was tried, and no answer came: to the reader that is as good as unsent.
    sending: () => (line.value.now === "no_signal" ? t("Saved on this phone. Unsent.") : t("Being sent.")),
    in_force: () => t("In force."),
    disputed: () => t("Disputed: somebody else set it too. Settle it under Changes."),
    removed: () => t("The record was removed meanwhile. Decide under Changes."),
    refused: () => t("Refused: it breaks a limit. See Changes."),
    held: () => t("Held until a manager accepts it. See Changes."),
    parked: () => t("Kept by the server until it is updated. See Changes."),
  };
  return words[state]();
}

export const waits = (state: SetState): boolean => !["unsent", "sending", "in_force"].includes(state);
