/** A hydrozone's season: its soil's water day by day, rain, watering and stress, and the turns that water it. */

import "../../look/need-season.css";
import "../../look/need-work.css";
import { useState } from "preact/hooks";
import { useMedia } from "../../ahead/use-media";
import { site } from "../../store/queries";
import { t, tn } from "../../words/catalogue";
import { PlanningAid } from "../planning-aid";
import { depth } from "../told/amounts";
import { seasonTable } from "../told/csv";
import type { Season, SeasonDay } from "../told/shapes";
import { NeedStanding } from "../told/standing";
import { TableWay } from "../told/table-way";
import { useTold } from "../told/use-told";
import { NeedWarnings } from "../told/warnings";
import { DayLine } from "./day-line";
import { type Range, rangesFor, shownDays, sumsOf } from "./days";
import { DaysTable } from "./days-table";
import { SeasonKey } from "./key";
import { NoSeason } from "./no-season";
import { SeasonPicture } from "./picture";
import { TurnsHere } from "./turns-here";

const BESIDE = "(min-width: 60rem)";
const FIRST_RANGE: Range = 30;

export function SeasonPage({ words: [zone = ""] }: { words: string[] }) {
  const document = site.value;
  const asked = useTold<Season>("season", zone);
  if (!document?.record("hydrozones", zone))
    return <p class="need-note">{t("There is no such hydrozone: it may have been removed.")}</p>;
  const { found, question } = asked;
  return (
    <div class="season">
      <h2 class="season-name">
        <bdi>{document.nameOf("hydrozone", zone)}</bdi>
      </h2>
      {found || !asked.detail ? <NeedStanding asked={asked} /> : null}
      {found && found.days.length > 0 ? <Days days={found.days} /> : null}
      {found ? <NeedWarnings messages={found.messages} /> : null}
      {found === null && !asked.busy ? <NoSeason zone={zone} /> : null}
      <TurnsHere document={document} zone={zone} />
      <div class="need-files">
        <TableWay asked={asked} name={`${zone} ${question.night}`} made={seasonTable} />
      </div>
      <PlanningAid />
    </div>
  );
}

function Days({ days: all }: { days: readonly SeasonDay[] }) {
  const [range, setRange] = useState<Range>(all.length > FIRST_RANGE ? FIRST_RANGE : 0);
  const days = shownDays(all, range);
  const [place, choose] = useState<number | null>(null);
  const chosen = Math.min(place ?? days.length - 1, days.length - 1);
  const beside = useMedia(BESIDE);
  const pick = (next: Range) => {
    setRange(next);
    choose(null);
  };
  return (
    <div class="season-days">
      <section class="season-drawn" aria-label={t("The season in a picture")}>
        <Ranges count={all.length} range={range} onPick={pick} />
        <p class="season-sums">{sumsWords(days)}</p>
        <SeasonPicture days={days} chosen={chosen} label={sumsWords(days)} onChoose={choose} />
        <SeasonKey />
        <DayLine days={days} chosen={chosen} onChoose={choose} />
      </section>
      <DaysTable days={days} open={beside} />
    </div>
  );
}

function Ranges({ count, range, onPick }: { count: number; range: Range; onPick: (range: Range) => void }) {
  const shown = rangesFor(count);
  if (shown.length < 2) return null;
  return (
    <fieldset class="season-ranges">
      <legend class="unseen">{t("How far back")}</legend>
      {shown.map((one) => (
        <button key={one} type="button" class="button" aria-pressed={one === range} onClick={() => onPick(one)}>
          {one === 0 ? t("All") : tn("{count} day", "{count} days", one)}
        </button>
      ))}
    </fieldset>
  );
}

function sumsWords(days: readonly SeasonDay[]): string {
  const sums = sumsOf(days);
  const water = tn(
    "In {count} day {rain} fell, {applied} were given, and plants used {taken}.",
    "In {count} days {rain} fell, {applied} were given, and plants used {taken}.",
    days.length,
    { rain: depth(sums.rain), applied: depth(sums.applied), taken: depth(sums.taken) },
  );
  const stress =
    sums.stressed === 0
      ? t("No day of stress.")
      : tn("{count} day of stress.", "{count} days of stress.", sums.stressed);
  return `${water} ${stress}`;
}
