/** The same night as a table, for those who hear the page or want to read it line by line. */

import { useEffect, useState } from "preact/hooks";
import { inOrder } from "../night/moments";
import type { LoadedNight } from "../night/night";
import { exactTimeAt, sayFor } from "../night/reading";
import { type Run, runKey } from "../night/sheet";
import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { nightSpan } from "../words/moments";
import { flow, volume } from "../words/units";

/** So many runs are shown at first, and so many more with each tap: a table of thousands takes its time. */
const ROWS = 300;

export function NightTable({ night }: { night: LoadedNight }) {
  const [open, setOpen] = useState(false);
  useBeforePrint(() => setOpen(true));
  return (
    <details class="as-table" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{t("The night as a table")}</summary>
      {open ? <Table key={night.sheet.night} night={night} /> : null}
    </details>
  );
}

function Table({ night }: { night: LoadedNight }) {
  const [shown, show] = useState(ROWS);
  const runs = inOrder(night.sheet);
  const left = runs.length - shown;
  useBeforePrint(() => show(runs.length));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard
    <section class="table-scroll" aria-label={t("The night as a table")} tabIndex={0}>
      <table>
        <caption>{t("Runs of the night {dates}", { dates: nightSpan(night.sheet.night) })}</caption>
        <TableHead />
        <tbody>
          {runs.slice(0, shown).map((run) => (
            <TableRow key={runKey(run)} night={night} run={run} />
          ))}
        </tbody>
      </table>
      {left > 0 ? (
        <button type="button" class="button" onClick={() => show(shown + ROWS)}>
          {tn("Show {count} more run", "Show {count} more runs", Math.min(left, ROWS))}
        </button>
      ) : null}
    </section>
  );
}

/** On paper nothing can be opened. */
function useBeforePrint(open: () => void): void {
  useEffect(() => {
    addEventListener("beforeprint", open);
    return () => removeEventListener("beforeprint", open);
  });
}

function TableHead() {
  const titles = [
    t("Starts"),
    t("Ends"),
    t("Station"),
    t("Place"),
    t("Supply"),
    t("Run time"),
    t("Flow"),
    t("Volume"),
    t("Why then"),
  ];
  return (
    <thead>
      <tr>
        {titles.map((title) => (
          <th key={title} scope="col">
            {title}
          </th>
        ))}
      </tr>
    </thead>
  );
}

function TableRow({ night, run }: { night: LoadedNight; run: Run }) {
  const station = night.document.stations.get(run.station);
  return (
    <tr>
      <td>{exactTimeAt(night.clock, run.start)}</td>
      <td>{exactTimeAt(night.clock, run.end)}</td>
      <th scope="row">
        <bdi>{night.document.nameOf("station", run.station)}</bdi>
      </th>
      <td>
        <bdi>{station?.part ?? ""}</bdi>
      </td>
      <td>
        <bdi>{night.document.nameOf("supply", run.supply)}</bdi>
      </td>
      <td>{duration(run.end - run.start)}</td>
      <td>{flow(run.flow_lpm)}</td>
      <td>{volume(run.volume_l)}</td>
      <td>{sayFor(night, run.why)}</td>
    </tr>
  );
}
