/** One station in the list: its tag and name, when it gets water next, and how long it runs. */

import { timeAt } from "../night/reading";
import { StationTag } from "../tonight/station-tag";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { listed } from "../words/lists";
import { shortDay } from "../words/moments";
import { choosing, chosen, toggle } from "./choosing";
import { nextRuns } from "./ground";
import type { StationLine } from "./list";

interface StationRowProps {
  line: StationLine;
  /** The station that stands beside the list. */
  here: boolean;
  /** Two of one station can stand in the list, where it is grouped by program. */
  program: string | null;
}

export function StationRow({ line, here, program }: StationRowProps) {
  return choosing.value ? (
    <ChoosingRow line={line} program={program} />
  ) : (
    <button
      type="button"
      class={`row${here ? " row-chosen" : ""}`}
      aria-current={here ? "true" : undefined}
      onClick={() => go("stations", line.id)}
    >
      <What line={line} program={program} />
    </button>
  );
}

function ChoosingRow({ line, program }: { line: StationLine; program: string | null }) {
  return (
    <label class="row row-choosing">
      <input type="checkbox" checked={chosen.value.has(line.id)} onChange={() => toggle(line.id)} />
      <What line={line} program={program} />
    </label>
  );
}

function What({ line, program }: { line: StationLine; program: string | null }) {
  const next = nextRuns.value.get(line.id);
  return (
    <>
      <StationTag number={line.number} brass={next?.open === true} />
      <span class="row-what">
        <span class="row-name">
          <bdi>{line.name}</bdi>
        </span>
        <span class="row-under">
          <bdi>{line.hydrozone || line.part}</bdi>
        </span>
      </span>
      <span class="row-end">
        <span class="row-length">{nextWords(next)}</span>
        <span class="row-left">{timesWords(line, program)}</span>
      </span>
    </>
  );
}

function nextWords(next: ReturnType<typeof nextRuns.value.get>): string {
  if (!next) return t("no water known");
  if (next.open) return t("until {time}", { time: timeAt(next.clock, next.run.end) });
  const time = timeAt(next.clock, next.run.start);
  return next.tonight ? time : t("{date} {time}", { date: shortDay(next.night), time });
}

function timesWords(line: StationLine, program: string | null): string {
  const turns = program ? line.turns.filter((turn) => turn.program === program) : line.turns;
  return turns.length === 0 ? t("in no program") : listed(turns.map((turn) => duration(turn.run_s)));
}
