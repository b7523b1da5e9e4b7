/** The selected run in figures. */

import type { LoadedNight } from "../night/night";
import { exactTimeAt } from "../night/reading";
import type { Run } from "../night/sheet";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { flow, volume } from "../words/units";

export function Facts({ night, run }: { night: LoadedNight; run: Run }) {
  const hydrozone = night.document.stations.get(run.station)?.hydrozone;
  const facts: [string, string][] = [
    [
      t("Runs"),
      t("{start}–{end}", { start: exactTimeAt(night.clock, run.start), end: exactTimeAt(night.clock, run.end) }),
    ],
    [t("Run time"), duration(run.end - run.start)],
    [t("Water"), t("{flow}, {volume}", { flow: flow(run.flow_lpm), volume: volume(run.volume_l) })],
    [t("Supply"), night.document.nameOf("supply", run.supply)],
  ];
  if (run.cycles > 1) facts.push([t("Cycle"), t("{cycle} of {cycles}", { cycle: run.cycle, cycles: run.cycles })]);
  if (run.program) facts.push([t("Program"), night.document.nameOf("program", run.program)]);
  if (hydrozone) facts.push([t("Hydrozone"), night.document.nameOf("hydrozone", hydrozone)]);
  return (
    <dl class="why-facts">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            <bdi>{value}</bdi>
          </dd>
        </div>
      ))}
    </dl>
  );
}
