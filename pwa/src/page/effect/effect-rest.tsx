/** What else changes: runs that come or go or end at another time, water, and notices that were not there before. */

import { useState } from "preact/hooks";
import { sayFor, timeAt } from "../night/reading";
import type { Run } from "../night/sheet";
import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { nothingChanges } from "./compare";
import type { Effect } from "./effect";
import { waterWords } from "./phrases";

const FIRST = 4;

export function EffectRest({ effect }: { effect: Effect }) {
  const [all, setAll] = useState(false);
  const runs = runsWords(effect);
  const said = [...(all ? runs : runs.slice(0, FIRST)), ...nightWords(effect)];
  const more = runs.length - FIRST;
  if (said.length === 0) return null;
  return (
    <>
      <ul class="effect-rest">
        {said.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {more > 0 && !all ? (
        <button type="button" class="row effect-more" onClick={() => setAll(true)}>
          {tn("Show {count} more run", "Show {count} more runs", more)}
        </button>
      ) : null}
    </>
  );
}

/** Run by run: a change of many programs has hundreds of them. */
function runsWords(effect: Effect): string[] {
  const { fresh, gone, resized } = effect.comparison;
  return [
    ...fresh.map((run) => freshWords(effect, run)),
    ...gone.map((run) => t("{run} does not run any more.", { run: runName(effect, run) })),
    ...resized.map(({ run, from, to }) =>
      t("{run} ends {after} instead of {before}.", {
        run: runName(effect, run),
        before: timeAt(effect.clock, from),
        after: timeAt(effect.clock, to),
      }),
    ),
  ];
}

function nightWords(effect: Effect): string[] {
  const { comparison } = effect;
  const said = [...waterWords(comparison), ...comparison.notices.map((notice) => sayFor(effect, notice))];
  // Runs that move by seconds only may still bring more or less water.
  return said.length === 0 && nothingChanges(comparison) ? [nothingWords(effect)] : said;
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
