/** When water comes next, and where: what most people open the page for. */

import { nextRun } from "../night/moments";
import { type LoadedNight, selected, tomorrow } from "../night/night";
import { timeAt } from "../night/reading";
import { type Run, runKey } from "../night/sheet";
import type { SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { t } from "../words/catalogue";
import { duration, minutesUntil } from "../words/durations";
import { timeParts } from "../words/moments";
import { flow, volume } from "../words/units";
import { Bowl } from "./bowl";
import { ProgramChip } from "./program-chip";
import { StationTag } from "./station-tag";

interface NextWaterProps {
  night: LoadedNight;
  /** Null where another night than tonight is looked at. */
  instant: number | null;
}

/** The bowl fills over the last hour before the water comes. */
const FILLS_S = 3600;

export function NextWater({ night, instant }: NextWaterProps) {
  const run = instant === null ? night.sheet.runs[0] : nextRun(night.sheet, instant);
  if (run) return <Next run={run} from={night} instant={instant} />;
  return <NoMore instant={instant} />;
}

interface NextProps {
  run: Run;
  from: { clock: SiteClock; document: SiteDocument };
  instant: number | null;
}

function Next({ run, from, instant }: NextProps) {
  const { digits, half } = timeParts(from.clock.wall(run.start));
  const wait = instant === null ? null : run.start - instant;
  return (
    <section class="next" aria-labelledby="next-title">
      <h2 id="next-title" class="next-title">
        {instant === null ? t("First water") : t("Next water")}
      </h2>
      {wait === null ? null : <p class="next-wait">{t("in {duration}", { duration: minutesUntil(wait) })}</p>}
      <div class="next-when">
        <p class="next-time">
          <bdi dir="ltr">
            {digits}
            {from.clock.mark(run.start)}
          </bdi>
          {half ? <span class="next-half">{half}</span> : null}
        </p>
        <Bowl large level={wait === null ? 0.7 : 1 - Math.ceil(wait / 60) / (FILLS_S / 60)} />
      </div>
      <Where run={run} document={from.document} />
    </section>
  );
}

function Where({ run, document }: { run: Run; document: SiteDocument }) {
  const station = document.stations.get(run.station);
  const program = run.program ? document.programs.get(run.program) : undefined;
  return (
    <button type="button" class="next-where" onClick={() => (selected.value = runKey(run))}>
      <span class="next-place">
        <StationTag number={station?.number ?? run.station} brass large />
        <bdi class="place">{station?.name ?? ""}</bdi>
      </span>
      <span class="next-facts">
        <bdi>{[station?.part, program?.name].filter(Boolean).join(", ")}</bdi> <ProgramChip program={program} />{" "}
        <span class="facts-measures">
          {t("{duration}, {volume}, {flow}", {
            duration: duration(run.end - run.start),
            volume: volume(run.volume_l),
            flow: flow(run.flow_lpm),
          })}
        </span>
      </span>
    </button>
  );
}

function NoMore({ instant }: { instant: number | null }) {
  const after = tomorrow.value;
  return (
    <section class="next" aria-labelledby="next-title">
      <h2 id="next-title" class="next-title">
        {instant === null ? t("No water this night") : t("No more water tonight")}
      </h2>
      {after && instant !== null ? (
        <p class="next-after">{t("Next water tomorrow {time}.", { time: timeAt(after.clock, after.run.start) })}</p>
      ) : null}
    </section>
  );
}
