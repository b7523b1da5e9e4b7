/** Why a run stands where it stands: the earliest time each limit allows; the last decides. */

import { type LoadedNight, selected } from "../night/night";
import { exactTimeAt, sayFor } from "../night/reading";
import { type Run, type Rung, runKey } from "../night/sheet";
import { valvesTold } from "../store/queries";
import { later } from "../way/later";
import { t } from "../words/catalogue";
import { StationTag } from "./station-tag";
import { WhyActs } from "./why-acts";
import { Facts } from "./why-facts";

const RanWords = later(() => import("../journal/ran-words").then((file) => file.RanWords));

export function WhyPanel({ night }: { night: LoadedNight }) {
  const run = night.sheet.runs.find((one) => runKey(one) === selected.value);
  if (!run) return <p class="why-hint">{t("Tap a run to see why it is there.")}</p>;
  const station = night.document.stations.get(run.station);
  return (
    <section class="why" aria-live="polite" aria-labelledby="why-title">
      <div class="why-head">
        <StationTag number={station?.number ?? run.station} brass />
        <bdi class="place">{station?.name ?? ""}</bdi>
        <button type="button" class="button why-close" onClick={() => (selected.value = null)}>
          {t("Close")}
        </button>
      </div>
      <div class="why-ladder">
        <h2 id="why-title">{t("Why {time}", { time: exactTimeAt(night.clock, run.start) })}</h2>
        <Ladder night={night} run={run} />
        {valvesTold.value ? <RanWords night={night} run={run} /> : null}
      </div>
      <Facts night={night} run={run} />
      <WhyActs night={night} run={run} />
    </section>
  );
}

function Ladder({ night, run }: { night: LoadedNight; run: Run }) {
  const rungs = run.ladder.length > 0 ? run.ladder : [{ why: run.why, at: run.start }];
  const sorted = [...rungs].sort((a, b) => a.at - b.at);
  const first = sorted[0]?.at ?? run.start;
  const whole = Math.max(1, run.start - first);
  return (
    <ol class="ladder">
      {sorted.map((rung, index) => (
        <LadderRung
          key={`${rung.why.code}-${index}`}
          night={night}
          rung={rung}
          share={(rung.at - first) / whole}
          decides={index === sorted.length - 1}
        />
      ))}
    </ol>
  );
}

interface LadderRungProps {
  night: LoadedNight;
  rung: Rung;
  share: number;
  decides: boolean;
}

function LadderRung({ night, rung, share, decides }: LadderRungProps) {
  return (
    <li class={decides ? "rung rung-decides" : "rung"}>
      <span class="rung-why">{sayFor(night, rung.why)}</span>
      <span class="rung-line" aria-hidden="true">
        <span class="rung-run" style={{ inlineSize: `${Math.round(Math.max(0, Math.min(1, share)) * 100)}%` }} />
        <svg class="rung-bowl" viewBox="0 0 16 9" aria-hidden="true">
          <path d="M1 1H15A7 7 0 0 1 1 1Z" />
        </svg>
      </span>
      <span class="rung-at">{exactTimeAt(night.clock, rung.at)}</span>
    </li>
  );
}
