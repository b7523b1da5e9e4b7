/** The night as lists: what is open now, what comes next, and what comes later, by place. */

import { useState } from "preact/hooks";
import { byPlace, inOrder, openAt, type PlaceRuns, shareDone, sum, toCome } from "../night/moments";
import type { LoadedNight } from "../night/night";
import { type Run, runKey } from "../night/sheet";
import { t, tn } from "../words/catalogue";
import { flow, volume } from "../words/units";
import { LongList } from "./long-list";
import { OpenRow, RunRow } from "./run-row";

interface RunListsProps {
  night: LoadedNight;
  instant: number | null;
}

/** So many runs are read in time order; after them people look for their own part of the grounds. */
const SOON = 6;

export function RunLists({ night, instant }: RunListsProps) {
  const coming = instant === null ? inOrder(night.sheet) : toCome(night.sheet, instant);
  return (
    <>
      {instant === null ? null : <OpenNow night={night} instant={instant} />}
      {coming.length > 0 ? <Next night={night} runs={coming} tonight={instant !== null} /> : null}
      {coming.length > SOON ? <Later night={night} runs={coming.slice(SOON)} /> : null}
    </>
  );
}

function OpenNow({ night, instant }: { night: LoadedNight; instant: number }) {
  const open = openAt(night.sheet, instant);
  const drawn = flow(sum(open.map((run) => run.flow_lpm)));
  return (
    <section aria-labelledby="open-title">
      <div class="list-head">
        <h2 id="open-title">{t("Open now")}</h2>
        <p>{tn("{count} station, {flow}", "{count} stations, {flow}", open.length, { flow: drawn })}</p>
      </div>
      {open.length === 0 ? (
        <p class="list-none">{t("No station is open.")}</p>
      ) : (
        <LongList name="open" items={open} keyOf={runKey}>
          {(run) => <OpenRow night={night} run={run} instant={instant} done={shareDone(run, instant)} />}
        </LongList>
      )}
    </section>
  );
}

function Next({ night, runs, tonight }: { night: LoadedNight; runs: Run[]; tonight: boolean }) {
  return (
    <section aria-labelledby="soon-title">
      <div class="list-head">
        <h2 id="soon-title">{tonight ? t("Next") : t("First")}</h2>
        <p>{tn("{count} run to come", "{count} runs to come", runs.length)}</p>
      </div>
      <ol class="rows" data-list="next">
        {runs.slice(0, SOON).map((run, index) => (
          <li key={runKey(run)}>
            <RunRow night={night} run={run} brass={index === 0} />
          </li>
        ))}
      </ol>
    </section>
  );
}

function Later({ night, runs }: { night: LoadedNight; runs: Run[] }) {
  return (
    <section aria-labelledby="later-title">
      <div class="list-head">
        <h2 id="later-title">{t("Later, by place")}</h2>
        <p>{tn("{count} run", "{count} runs", runs.length)}</p>
      </div>
      {byPlace(runs, night.document).map((group) => (
        <PlaceGroup key={group.place} night={night} group={group} />
      ))}
    </section>
  );
}

/** Its rows are made once somebody opens it. */
function PlaceGroup({ night, group: { place, runs, volumeL } }: { night: LoadedNight; group: PlaceRuns }) {
  const [open, setOpen] = useState(false);
  return (
    <details class="place-group" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <bdi>{place || t("Elsewhere")}</bdi>
        <span>{tn("{count} run, {volume}", "{count} runs, {volume}", runs.length, { volume: volume(volumeL) })}</span>
      </summary>
      {open ? (
        <LongList name="later" items={runs} keyOf={runKey}>
          {(run) => <RunRow night={night} run={run} />}
        </LongList>
      ) : null}
    </details>
  );
}
