/** `Up to 50 min, the finish stays 05:21.` Worked out when the planner has nothing better to do. */

import { useEffect, useState } from "preact/hooks";
import { knownNights } from "../effect/grounds";
import { timeAt } from "../night/reading";
import { planner } from "../planner/planner";
import { SiteClock } from "../site/clock";
import { t } from "../words/catalogue";
import type { TurnLine } from "./list";
import { runWords } from "./run-words";
import { type Slack, slackOf } from "./slack";

const PAUSE_MS = 700;

export function StaysHint({ turn }: { turn: TurnLine }) {
  const slack = useSlack(turn);
  const clock = slack ? knownNights.value.get(slack.night)?.clock : undefined;
  if (!slack || !clock) return null;
  const time = timeAt(new SiteClock(clock), slack.finish);
  const words = { run: runWords(slack.run_s), time };
  return (
    <p class="turn-hints">
      {slack.further
        ? t("Even at {run}, the finish stays {time}.", words)
        : t("Up to {run}, the finish stays {time}.", words)}
    </p>
  );
}

function useSlack(turn: TurnLine): Slack | null {
  const [slack, setSlack] = useState<Slack | null>(null);
  const ready = planner.value.is === "ready";
  const { id, run_s, cycles, soak_s } = turn;
  useEffect(() => {
    setSlack(null);
    if (!ready) return;
    let wanted = true;
    const pause = setTimeout(() => {
      void slackOf(id, { run_s, cycles, soak_s }).then((found) => wanted && setSlack(found));
    }, PAUSE_MS);
    return () => {
      wanted = false;
      clearTimeout(pause);
    };
  }, [id, run_s, cycles, soak_s, ready]);
  return slack;
}
