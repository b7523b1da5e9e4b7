/** What else changes: runs that come or go or end at another time, water, and notices that were not there before. */

import { sayFor, timeAt } from "../night/reading";
import type { Run } from "../night/sheet";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { nothingChanges } from "./compare";
import type { Effect } from "./effect";
import { waterWords } from "./phrases";

export function EffectRest({ effect }: { effect: Effect }) {
  const { comparison } = effect;
  const said = [
    ...comparison.fresh.map((run) => freshWords(effect, run)),
    ...comparison.gone.map((run) => t("{run} does not run any more.", { run: runName(effect, run) })),
    ...comparison.resized.map(({ run, from, to }) =>
      t("{run} ends {after} instead of {before}.", {
        run: runName(effect, run),
        before: timeAt(effect.clock, from),
        after: timeAt(effect.clock, to),
      }),
    ),
    ...waterWords(comparison),
    ...comparison.notices.map((notice) => sayFor(effect, notice)),
    ...(nothingChanges(comparison) ? [nothingWords(effect)] : []),
  ];
  if (said.length === 0) return null;
  return (
    <ul class="effect-rest">
      {said.map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  );
}

function nothingWords(effect: Effect): string {
  return effect.tonight ? t("Tonight stays as it is.") : t("That night stays as it is.");
}

function freshWords(effect: Effect, run: Run): string {
  return t("{run} now runs at {time} for {duration}.", {
    run: runName(effect, run),
    time: timeAt(effect.clock, run.start),
    duration: duration(run.end - run.start),
  });
}

function runName(effect: Effect, run: Run): string {
  const station = effect.document.nameOf("station", run.station);
  return run.cycles > 1 ? t("{station}, cycle {cycle}", { station, cycle: run.cycle }) : station;
}
