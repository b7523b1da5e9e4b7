/** One day of the season in words, and the slider that steps through the days. */

import { t } from "../../words/catalogue";
import { longDay, shortDay } from "../../words/moments";
import { depth } from "../told/amounts";
import { sayNeed } from "../told/names";
import { rungWords } from "../told/rungs";
import type { SeasonDay } from "../told/shapes";
import { isStressed } from "./days";

interface DayLineProps {
  days: readonly SeasonDay[];
  chosen: number;
  onChoose: (place: number) => void;
}

export function DayLine({ days, chosen, onChoose }: DayLineProps) {
  const day = days[chosen];
  if (!day) return null;
  return (
    <section class="season-day" aria-label={longDay(day.day)}>
      <input
        type="range"
        class="season-slider"
        min={0}
        max={days.length - 1}
        value={chosen}
        aria-label={t("Day")}
        aria-valuetext={shortDay(day.day)}
        onInput={(event) => onChoose(Number(event.currentTarget.value))}
      />
      <h3>{longDay(day.day)}</h3>
      <dl class="season-facts">
        {factsOf(day).map(([name, words]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      {day.flags.map((flag) => (
        <p key={flag.code} class="season-flag">
          {sayNeed(flag)}
        </p>
      ))}
    </section>
  );
}

function factsOf(day: SeasonDay): [string, string][] {
  const used = isStressed(day)
    ? t("{taken} of {demand}", { taken: depth(day.taken_mm), demand: depth(day.demand_mm) })
    : depth(day.taken_mm);
  return [
    [t("Rain"), depth(day.rain_mm)],
    [t("Watering"), depth(day.applied_mm)],
    [t("Plants used"), used],
    [t("Lacks"), depth(day.depletion_mm)],
    [t("Stress begins at"), depth(day.ready_mm)],
    [t("Weather"), rungWords(day.rung)],
  ];
}
