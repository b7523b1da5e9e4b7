/** What one program does in one night: each run, why it is there, what did not fit, and which programs it meets. */

import { inOrder } from "../night/moments";
import { sayFor, timeAt } from "../night/reading";
import { type Run, runKey } from "../night/sheet";
import { ProgramChip } from "../tonight/program-chip";
import { StationTag } from "../tonight/station-tag";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { listed } from "../words/lists";
import { nightSpan } from "../words/moments";
import { volume } from "../words/units";
import { type AheadNight, meetings, shareOf } from "./almanac";
import { show } from "./night-why";
import { chosenCell, type Outlook } from "./outlook";

export function CellWhy({ outlook }: { outlook: Outlook }) {
  const chosen = chosenCell.value;
  const night = chosen && outlook.nights.get(chosen.date);
  if (!chosen || !night) return null;
  const program = chosen.who ? outlook.document.programs.get(chosen.who) : undefined;
  return (
    <section class="cell-why" aria-live="polite" aria-labelledby="cell-title">
      <div class="cell-head">
        <ProgramChip program={program} />
        <h2 id="cell-title">
          <bdi>{program?.name ?? t("Asked for")}</bdi>
          <span class="cell-night">{nightSpan(chosen.date)}</span>
        </h2>
        <button type="button" class="button" onClick={() => show(chosen.date)}>
          {t("Show that night")}
        </button>
        <button
          type="button"
          class="button"
          onClick={() => {
            chosenCell.value = null;
          }}
        >
          {t("Close")}
        </button>
      </div>
      <Runs night={night} who={chosen.who} />
    </section>
  );
}

function Runs({ night, who }: { night: AheadNight; who: string | null }) {
  const share = shareOf(night.sheet, who);
  const runs = inOrder(night.sheet).filter((run) => run.program === who);
  const met = meetings(night.sheet, who);
  return (
    <>
      {runs.length === 0 && share.shortfalls.length === 0 ? <p class="cell-none">{t("No turn is due.")}</p> : null}
      <ol class="cell-runs">
        {runs.map((run) => (
          <RunLine key={runKey(run)} night={night} run={run} />
        ))}
        {share.shortfalls.map((item) => (
          <li key={item.turn} class="cell-run">
            <span class="cell-time">–</span>
            <StationTag number={night.document.stations.get(item.station)?.number ?? item.station} />
            <span class="cell-what">
              <bdi>{night.document.stations.get(item.station)?.name ?? ""}</bdi>
              <span class="ahead-short">{t("{volume} short", { volume: volume(item.volume_l) })}</span>
              <span class="cell-reason">{sayFor(night, item.why)}</span>
            </span>
          </li>
        ))}
      </ol>
      {met.length > 0 ? (
        <p class="cell-met">
          {t("Waters at the same time as {programs}.", {
            programs: listed(met.map((one) => night.document.nameOf("program", one.program))),
          })}
        </p>
      ) : null}
    </>
  );
}

function RunLine({ night, run }: { night: AheadNight; run: Run }) {
  const station = night.document.stations.get(run.station);
  return (
    <li class="cell-run">
      <span class="cell-time">{timeAt(night.clock, run.start)}</span>
      <StationTag number={station?.number ?? run.station} />
      <span class="cell-what">
        <bdi>{station?.name ?? ""}</bdi>
        <span class="cell-reason">{sayFor(night, run.why)}</span>
      </span>
      <span class="cell-length">{duration(run.end - run.start)}</span>
    </li>
  );
}
