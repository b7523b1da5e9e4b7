/** Why something that the engine works out is not there yet, and when it will be. */

import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import type { Asked } from "./asking";

export function AskingLine({ asked }: { asked: Asked<unknown> }) {
  return (
    <p class="need-note" role="status">
      {words(asked)}
    </p>
  );
}

function words(asked: Asked<unknown>): string {
  if (asked.is === "loading")
    return t("The planner is loading: {percent} %.", { percent: figure(asked.progress * 100, 0) });
  if (asked.is === "working") return t("Working it out…");
  return asked.is === "later" ? t("Known after sync.") : "";
}
