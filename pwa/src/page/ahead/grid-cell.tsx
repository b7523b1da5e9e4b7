/** One program in one night: when its first water comes, and how much. Empty where it has no turn. */

import { timeAt } from "../night/reading";
import { ASKED_LOOK, fillName, lookOf } from "../picture/programs";
import { t, tn } from "../words/catalogue";
import { shortDay } from "../words/moments";
import { volume } from "../words/units";
import type { Share } from "./almanac";
import { type GridLine, type Spot, waters } from "./grid";
import { chosenCell, type Outlook } from "./outlook";

interface GridCellProps {
  line: GridLine;
  date: string;
  spot: Spot;
  outlook: Outlook;
}

export function GridCell({ line, date, spot, outlook }: GridCellProps) {
  const share = line.cells.get(date) ?? null;
  const chosen = chosenCell.value?.date === date && chosenCell.value.who === line.who;
  const night = outlook.nights.get(date);
  const time = share?.first != null && night ? timeAt(night.clock, share.first) : "";
  return (
    <td class={share?.shortL ? "grid-short" : undefined}>
      <button
        type="button"
        class={`grid-field${chosen ? " grid-chosen" : ""}`}
        tabIndex={spot.line === 0 && spot.column === 0 ? 0 : -1}
        data-line={spot.line}
        data-column={spot.column}
        data-program={line.who ?? ""}
        data-date={date}
        aria-pressed={chosen}
        onClick={() => {
          chosenCell.value = chosen ? null : { who: line.who, date };
        }}
      >
        <span class="unseen">{spoken(line, date, share, time)}</span>
        {share && waters(share) ? <Field line={line} share={share} time={time} /> : <Nothing known={share !== null} />}
      </button>
    </td>
  );
}

function Field({ line, share, time }: { line: GridLine; share: Share; time: string }) {
  const look = line.program ? lookOf(line.program.place) : ASKED_LOOK;
  return (
    <span aria-hidden="true" class="grid-inside">
      <svg aria-hidden="true" class={`grid-chip hue-${look.hue}`} width="100%" height="10">
        <rect width="100%" height="10" fill={`url(#${fillName(look)})`} />
      </svg>
      <span class="grid-time">{time || "–"}</span>
      {share.shortL > 0 ? (
        <span class="grid-volume ahead-short">{t("−{volume}", { volume: volume(share.shortL) })}</span>
      ) : (
        <span class="grid-volume">{volume(share.volumeL)}</span>
      )}
    </span>
  );
}

function Nothing({ known }: { known: boolean }) {
  return <span aria-hidden="true" class={known ? "grid-nothing" : "grid-nothing grid-unknown"} />;
}

function spoken(line: GridLine, date: string, share: Share | null, time: string): string {
  const program = line.program?.name ?? t("Asked for");
  const night = shortDay(date);
  if (!share) return t("{program}, {night}: not worked out yet", { program, night });
  if (!waters(share)) return t("{program}, {night}: no turn", { program, night });
  const amount = volume(share.volumeL);
  if (share.first === null)
    return t("{program}, {night}: nothing fits, {volume} short", { program, night, volume: volume(share.shortL) });
  const told = { program, night, time, volume: amount, short: volume(share.shortL) };
  if (share.shortL > 0) return t("{program}, {night}: first at {time}, {volume}, {short} short", told);
  return tn(
    "{program}, {night}: first at {time}, {volume}, {count} run",
    "{program}, {night}: first at {time}, {volume}, {count} runs",
    share.runs.length,
    told,
  );
}
