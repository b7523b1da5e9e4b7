/** How far a record's edits have come: in force, saved on this phone, on their way, or waiting for a decision. */

import { line, unsent, waiting } from "../store/queries";
import type { Edit, Waiting } from "../store/shapes";
import { t } from "../words/catalogue";

export type RecordState = "in_force" | "saved" | "sending" | "unanswered" | Waiting["tray"];

export function stateOf(table: string, id: string, outbox: readonly Edit[], trays: readonly Waiting[]): RecordState {
  const decision = trays.find(({ open, edit }) => open && edit.table === table && edit.record === id);
  if (decision) return decision.tray;
  const own = outbox.filter((edit) => edit.table === table && edit.record === id);
  if (!own.length) return "in_force";
  return own.every((edit) => edit.sent) ? "sending" : "saved";
}

/** Without signal nothing is on its way: what was sent may have come, but nobody knows yet. */
export function stateHere(table: string, id: string): RecordState {
  const state = stateOf(table, id, unsent.value, waiting.value);
  return state === "sending" && line.value.now === "no_signal" ? "unanswered" : state;
}

export function stateWords(state: RecordState): string {
  const words: Record<RecordState, () => string> = {
    in_force: () => t("In force"),
    saved: () => t("Saved on this phone, not sent yet"),
    sending: () => t("On its way to the server"),
    unanswered: () => t("Saved on this phone; the server has not answered yet"),
    disputed: () => t("Disputed: somebody else changed it too"),
    removed: () => t("Somebody removed it: your edit waits"),
    refused: () => t("Refused: your edit is not in force"),
    held: () => t("Held: a manager decides"),
    parked: () => t("Waits for the server to be updated"),
  };
  return words[state]();
}

/** The same in a word or two, for lists. */
export function stateTag(state: RecordState): string {
  const words: Record<RecordState, () => string> = {
    in_force: () => t("In force"),
    saved: () => t("Unsent"),
    sending: () => t("On its way"),
    unanswered: () => t("Unsent"),
    disputed: () => t("Disputed"),
    removed: () => t("Removed"),
    refused: () => t("Refused"),
    held: () => t("Held"),
    parked: () => t("Waits"),
  };
  return words[state]();
}
