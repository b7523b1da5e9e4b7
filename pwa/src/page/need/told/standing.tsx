/** Who worked the figures out and when, or why there are none: one calm line under the head. */

import { planner } from "../../planner/planner";
import { whenHere } from "../../shell/line-words";
import { unsent } from "../../store/queries";
import { t } from "../../words/catalogue";
import { figure } from "../../words/figures";
import type { Asked } from "./use-told";

export function NeedStanding({ asked }: { asked: Asked<unknown> }) {
  return (
    <p class="need-standing" role="status" data-from={asked.from ?? ""}>
      {standingWords(asked)}
    </p>
  );
}

function standingWords(asked: Asked<unknown>): string {
  const { from, at, found, detail, busy } = asked;
  if (detail && !found) return detail;
  if (from === "phone") return phoneWords(asked);
  if (from && at !== null) {
    const time = whenHere(at, Date.now());
    const past =
      from === "kept" ? t("You see it as of {time}. It may be out of date.", { time }) : t("As of {time}.", { time });
    return asked.counted ? past : `${past} ${t("Unsent edits are not counted yet.")}`;
  }
  if (busy) return t("Working it out…");
  return nobodyWords();
}

function phoneWords({ counted, question }: Asked<unknown>): string {
  const worked = counted ? t("Worked out on this phone, with your unsent edits.") : t("Worked out on this phone.");
  return question.about === "season"
    ? `${worked} ${t("Nights past count as watered as their need was; what the sheets had comes with the signal.")}`
    : worked;
}

function nobodyWords(): string {
  const { is, progress } = planner.value;
  if (is === "loading") return t("The planner is loading: {percent} %.", { percent: figure(progress * 100, 0) });
  if (unsent.value.length > 0) return t("It is worked out after sync.");
  return t("This needs signal. It was never fetched on this phone.");
}
