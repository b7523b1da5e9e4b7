/** One of a station's turns: its program, how long it runs, and the way to change that. */

import type { SiteDocument } from "../site/document";
import { mayEdit } from "../store/queries";
import { ProgramChip } from "../tonight/program-chip";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { Badges } from "./badges";
import { cyclesWords } from "./cycles";
import type { TurnLine } from "./list";
import { seasonalWords } from "./seasonal";
import { WorkWay } from "./work-way";

interface TurnRowProps {
  document: SiteDocument;
  station: string;
  turn: TurnLine;
}

export function TurnRow({ document, station, turn }: TurnRowProps) {
  const program = document.programs.get(turn.program);
  const byNeed = document.record("turns", turn.id)?.mode === "need";
  const inside = (
    <>
      <ProgramChip program={program} />
      <span class="row-what">
        <span class="row-name">
          <bdi>{program?.name ?? turn.program}</bdi>
        </span>
        <span class="row-under">{[cyclesWords(turn), seasonalWords(document, turn)].filter(Boolean).join(" ")}</span>
      </span>
      <span class="row-end">
        <span class="turn-time">{byNeed ? t("by need") : duration(turn.run_s)}</span>
        {mayEdit.value ? <span class="row-left turn-change">{t("Change")}</span> : null}
      </span>
    </>
  );
  return (
    <>
      {mayEdit.value ? (
        <button type="button" class="row" onClick={() => go("stations", station, "turn", turn.id)}>
          {inside}
        </button>
      ) : (
        <div class="row">{inside}</div>
      )}
      <WorkWay document={document} turn={turn.id} />
      <Badges table="turns" record={turn.id} />
    </>
  );
}
