/** A turn's run time: the figure in large type, what it does to tonight, and keep or put back. */

import { useState } from "preact/hooks";
import { KeepBar } from "../edits/keep-bar";
import { EffectView } from "../effect/effect-view";
import { useEffectOf } from "../effect/watching";
import { effectWords } from "../records/effect-words";
import type { SiteDocument, Station } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { t } from "../words/catalogue";
import { flow } from "../words/units";
import { Badges } from "./badges";
import { Cycles } from "./cycles-fields";
import { Detail } from "./detail";
import type { TurnLine } from "./list";
import { RunStepper } from "./run-stepper";
import { runChange } from "./run-times";
import { effectTitle, runWords } from "./run-words";
import { seasonalWords } from "./seasonal";
import { StaysHint } from "./stays-hint";
import { useTurnDraft } from "./turn-draft";
import { WhoMay } from "./who-may";
import { WorkWay } from "./work-way";

interface TurnEditProps {
  document: SiteDocument;
  station: Station;
  turn: TurnLine;
}

export function TurnEdit({ document, station, turn }: TurnEditProps) {
  const { value, changed, put, drop, mayChange } = useTurnDraft(turn);
  const [fault, setFault] = useState<Record<string, string | null>>({});
  const report = (field: string) => (words: string | null) => setFault((all) => ({ ...all, [field]: words }));
  const faults = Object.values(fault).filter((words) => words !== null);
  const run = runWords(value.run_s);
  const changes = changed ? [runChange(turn.id, value)] : [];
  const effect = useEffectOf(changes, null);
  return (
    <Detail title={t("Run time")} sub={turnWords(document, station, turn)}>
      <div class="turn-edit">
        <div class="turn-values">
          <div class="station-name">
            <StationTag number={station.number} brass large />
            <bdi class="place">{station.name}</bdi>
          </div>
          <Badges table="turns" record={turn.id} />
          <WhoMay />
          <RunStepper
            value={value.run_s}
            was={turn.run_s}
            disabled={!mayChange}
            onChange={(run_s) => put({ ...value, run_s })}
            onFault={report("run_s")}
          />
          <p class="turn-hints">{seasonalWords(document, { ...turn, run_s: value.run_s })}</p>
          {changed ? null : <StaysHint turn={turn} />}
          <Cycles value={value} onChange={put} report={report} disabled={!mayChange} />
          <WorkWay document={document} turn={turn.id} always />
        </div>
        {changed ? (
          <div class="turn-effect">
            <EffectView
              state={effect}
              changes={changes}
              turn={turn.id}
              title={(night, tonight) => effectTitle(night, tonight, run)}
            />
          </div>
        ) : null}
        {changed || faults.length > 0 ? (
          <KeepBar
            changes={changes}
            gist={effectWords(effect)}
            said={() => t("Kept {run} for {station}.", { run, station: station.number })}
            back={t("Put back {run}", { run: runWords(turn.run_s) })}
            onBack={drop}
            keep={t("Keep {run}", { run })}
            onKept={drop}
            faults={faults}
          />
        ) : null}
      </div>
    </Detail>
  );
}

function turnWords(document: SiteDocument, station: Station, turn: TurnLine): string {
  const program = document.programs.get(turn.program)?.name ?? turn.program;
  return t("Turn in {program}, {flow}", {
    program,
    flow: flow(Number(document.record("stations", station.id)?.flow_lpm ?? 0)),
  });
}
