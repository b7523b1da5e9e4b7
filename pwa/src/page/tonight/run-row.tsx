/** One run in a list. A tap selects it, here and in the picture. */

import { type LoadedNight, selected } from "../night/night";
import { timeAt } from "../night/reading";
import { type Run, runKey } from "../night/sheet";
import { t } from "../words/catalogue";
import { duration, minutesUntil } from "../words/durations";
import { Bowl } from "./bowl";
import { StationTag } from "./station-tag";

interface RunRowProps {
  night: LoadedNight;
  run: Run;
  brass?: boolean;
}

export function RunRow({ night, run, brass = false }: RunRowProps) {
  return (
    <Row
      night={night}
      run={run}
      brass={brass}
      lead={<span class="row-time">{timeAt(night.clock, run.start)}</span>}
      under={programLine(night, run)}
    >
      <span class="row-length">{duration(run.end - run.start)}</span>
    </Row>
  );
}

/** A run that is open: its bowl fills, and is full when the valve closes. */
export function OpenRow({ night, run, instant, done }: RunRowProps & { instant: number; done: number }) {
  const closes = t("closes {time}", { time: timeAt(night.clock, run.end) });
  return (
    <Row night={night} run={run} lead={<Bowl level={done} />} under={closes}>
      <span class="row-length">{minutesUntil(run.end - instant)}</span>
      <span class="row-left">{t("left")}</span>
    </Row>
  );
}

function programLine(night: LoadedNight, run: Run): string {
  const program = run.program ? night.document.nameOf("program", run.program) : t("Asked for");
  if (run.cycles === 1) return program;
  return t("{program}, cycle {cycle} of {cycles}", { program, cycle: run.cycle, cycles: run.cycles });
}

interface RowProps extends RunRowProps {
  lead: preact.ComponentChildren;
  under: string;
  children: preact.ComponentChildren;
}

function Row({ night, run, brass = false, lead, under, children }: RowProps) {
  const station = night.document.stations.get(run.station);
  const key = runKey(run);
  const chosen = selected.value === key;
  return (
    <button
      type="button"
      class={`row${chosen ? " row-chosen" : ""}`}
      aria-pressed={chosen}
      data-row={key}
      onClick={() => (selected.value = chosen ? null : key)}
    >
      <span class="row-lead">{lead}</span>
      <StationTag number={station?.number ?? run.station} brass={brass || chosen} />
      <span class="row-what">
        <span class="row-name">
          <bdi>{station?.name ?? ""}</bdi>
        </span>
        <span class="row-under">{under}</span>
      </span>
      <span class="row-end">{children}</span>
    </button>
  );
}
