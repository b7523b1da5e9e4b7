/** When a station gets water: the next run in large type, then the nights after it. */

import { useState } from "preact/hooks";
import { knownNights } from "../effect/grounds";
import { timeAt } from "../night/reading";
import { runKey } from "../night/sheet";
import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { shortDay } from "../words/moments";
import { type NextRun, runsOf } from "./ground";

const FIRST = 3;

export function ComingRuns({ station }: { station: string }) {
  const [all, setAll] = useState(false);
  const runs = runsOf(station);
  const [next, ...later] = runs;
  const more = later.length - FIRST;
  return (
    <section class="coming" aria-labelledby="coming-title">
      <h2 id="coming-title" class="coming-title">
        {next?.open ? t("Open now") : t("Next water")}
      </h2>
      {next ? <First next={next} /> : <p class="coming-none">{noneWords()}</p>}
      <ul class="coming-later">
        {(all ? later : later.slice(0, FIRST)).map((one) => (
          <li key={`${one.night}/${runKey(one.run)}`}>
            <span>{one.tonight ? t("Tonight") : shortDay(one.night)}</span>
            <span class="coming-time">{timeAt(one.clock, one.run.start)}</span>
            <span>{duration(one.run.end - one.run.start)}</span>
          </li>
        ))}
      </ul>
      {more > 0 && !all ? (
        <button type="button" class="button coming-more" onClick={() => setAll(true)}>
          {tn("Show {count} more run", "Show {count} more runs", more)}
        </button>
      ) : null}
    </section>
  );
}

function First({ next }: { next: NextRun }) {
  const time = next.open
    ? t("until {time}", { time: timeAt(next.clock, next.run.end) })
    : timeAt(next.clock, next.run.start);
  const { cycle, cycles } = next.run;
  return (
    <p class="coming-first">
      <span class="coming-when">{time}</span>
      <span class="coming-what">
        {next.tonight ? t("Tonight") : shortDay(next.night)}, {duration(next.run.end - next.run.start)}
        {cycles > 1 ? <span class="coming-cycle">{t("cycle {cycle} of {cycles}", { cycle, cycles })}</span> : null}
      </span>
    </p>
  );
}

function noneWords(): string {
  const nights = knownNights.value.size;
  if (nights === 0) return t("No night is known on this phone yet.");
  return tn("No water in the {count} night that is known.", "No water in the {count} nights that are known.", nights);
}
