/** When a program waters in the nights to come, as this phone knows them; each leads to its night. */

import { ask } from "../night/night";
import { nights, tonightDate } from "../night/nights";
import { timeAt } from "../night/reading";
import { SiteClock } from "../site/clock";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { shortDay } from "../words/moments";
import { volume } from "../words/units";
import { type ComingNight, comingNights } from "./coming";

interface ProgramDatesProps {
  program: string;
  /** The form holds changes that these nights do not know of. */
  changed: boolean;
}

export function ProgramDates({ program, changed }: ProgramDatesProps) {
  const known = nights.value;
  const coming = comingNights(known, program);
  return (
    <section class="record-section" aria-labelledby="section-dates">
      <h2 id="section-dates">{t("Its next nights")}</h2>
      <p class="record-note">{summary(known.size, coming.length)}</p>
      {changed && coming.length ? <p class="field-hint">{t("As it stands now, before these edits.")}</p> : null}
      <ul class="dated">
        {coming.map((night) => (
          <li key={night.night}>
            <Night night={night} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function summary(known: number, due: number): string {
  if (!known) return t("This phone knows no night yet.");
  if (!due) return tn("Not in the night this phone knows.", "Not in the {count} nights this phone knows.", known);
  return tn("In {due} of {count} night this phone knows.", "In {due} of the {count} nights this phone knows.", known, {
    due,
  });
}

function Night({ night }: { night: ComingNight }) {
  return (
    <button
      type="button"
      class="dated-night"
      onClick={() => {
        ask(night.night);
        go("tonight");
      }}
    >
      <span class="dated-when">
        <span>{shortDay(night.night)}</span>
        {night.night === tonightDate.value ? <span class="dated-tonight">{t("tonight")}</span> : null}
      </span>
      <span class="dated-hours">{hours(night)}</span>
      <span class="dated-water">
        {tn("{count} run, {volume}", "{count} runs, {volume}", night.runs, { volume: volume(night.litres) })}
      </span>
      {night.shortL > 0 ? (
        <span class="dated-short">{t("{volume} short", { volume: volume(night.shortL) })}</span>
      ) : null}
    </button>
  );
}

function hours(night: ComingNight): string {
  const clock = nights.value.get(night.night)?.clock;
  if (!clock || night.start === null || night.end === null) return t("does not fit");
  const wall = new SiteClock(clock);
  return t("{start}–{end}", { start: timeAt(wall, night.start), end: timeAt(wall, night.end) });
}
