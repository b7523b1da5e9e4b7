/** The same night as a table, for those who hear the page or want to read it line by line. */

import { inOrder } from "../night/moments";
import type { LoadedNight } from "../night/night";
import { exactTimeAt, sayFor } from "../night/reading";
import { type Run, runKey } from "../night/sheet";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { nightSpan } from "../words/moments";
import { flow, volume } from "../words/units";

export function NightTable({ night }: { night: LoadedNight }) {
  return (
    <details class="as-table">
      <summary>{t("The night as a table")}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard */}
      <section class="table-scroll" aria-label={t("The night as a table")} tabIndex={0}>
        <table>
          <caption>{t("Runs of the night {dates}", { dates: nightSpan(night.sheet.night) })}</caption>
          <thead>
            <tr>
              {[
                t("Starts"),
                t("Ends"),
                t("Station"),
                t("Place"),
                t("Supply"),
                t("Run time"),
                t("Flow"),
                t("Volume"),
                t("Why then"),
              ].map((title) => (
                <th key={title} scope="col">
                  {title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {inOrder(night.sheet).map((run) => (
              <TableRow key={runKey(run)} night={night} run={run} />
            ))}
          </tbody>
        </table>
      </section>
    </details>
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
