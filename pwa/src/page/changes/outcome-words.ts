/** What became of an edit, in a few words. */

import type { Outcome } from "../store/shapes";
import { t } from "../words/catalogue";

export function outcomeWords(outcome: Outcome): string {
  const words: Record<Outcome, () => string> = {
    taken: () => t("In force."),
    agreed: () => t("It was so already."),
    disputed: () => t("Disputed: it waits for a decision."),
    removed: () => t("Not in force: the record was removed."),
    refused: () => t("Refused: it breaks a limit."),
    held: () => t("Held for a manager."),
    parked: () => t("Waits for an update of the server."),
  };
  return words[outcome]();
}
