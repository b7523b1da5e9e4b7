/** A turn's run time: the figure in large type, what it does to tonight, and keep or put back. */

import { useState } from "preact/hooks";
import { DurationField, readLength } from "../controls/duration-field";
import { NumberField } from "../controls/number-field";
import { Stepper } from "../controls/stepper";
import type { Read } from "../controls/typed";
import { KeepBar } from "../edits/keep-bar";
import { EffectView } from "../effect/effect-view";
import { useEffectOf } from "../effect/watching";
import { effectWords } from "../records/effect-words";
import type { SiteDocument, Station } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { t } from "../words/catalogue";
import { flow } from "../words/units";
import { Badges } from "./badges";
import { cyclesWords } from "./cycles";
import { Detail } from "./detail";
import type { TurnLine } from "./list";
import { LEAST_S, MOST_CYCLES, MOST_S, MOST_SOAK_S, type RunValue, runChange } from "./run-times";
import { effectTitle, minutesText, minutesUnit, runWords, stepName } from "./run-words";
import { seasonalWords } from "./seasonal";
import { StaysHint } from "./stays-hint";
import { useTurnDraft } from "./turn-draft";
import { WhoMay } from "./who-may";

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
  const program = document.programs.get(turn.program);
  const record = document.record("stations", station.id);
  const flowWords = flow(Number(record?.flow_lpm ?? 0));
  const run = runWords(value.run_s);
  const changes = changed ? [runChange(turn.id, value)] : [];
  const effect = useEffectOf(changes, null);
  return (
    <Detail
      title={t("Run time")}
      sub={t("Turn in {program}, {flow}", { program: program?.name ?? turn.program, flow: flowWords })}
    >
      <div class="turn-edit">
        <div class="turn-values">
          <div class="station-name">
            <StationTag number={station.number} brass large />
            <bdi class="place">{station.name}</bdi>
          </div>
          <Badges table="turns" record={turn.id} />
          <WhoMay />
          <Stepper
            label={t("Run time")}
            value={value.run_s}
            was={turn.run_s}
            least={Math.min(LEAST_S, turn.run_s)}
            most={MOST_S}
            size={60}
            write={minutesText}
            unit={minutesUnit(value.run_s)}
            read={(text) =>
              readLength(text, { label: t("Run time"), least: 1, most: MOST_S, required: true }) as Read<number>
            }
            stepName={stepName}
            disabled={!mayChange}
            onChange={(run_s) => put({ ...value, run_s })}
            onFault={report("run_s")}
          />
          <p class="turn-hints">{seasonalWords(document, { ...turn, run_s: value.run_s })}</p>
          {changed ? null : <StaysHint turn={turn} />}
          <Cycles value={value} onChange={put} report={report} disabled={!mayChange} />
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

interface CyclesProps {
  value: RunValue;
  onChange: (value: RunValue) => void;
  report: (field: string) => (words: string | null) => void;
  disabled: boolean;
}

function Cycles({ value, onChange, report, disabled }: CyclesProps) {
  return (
    <details class="as-table turn-cycles">
      <summary>
        <span>{t("Cycles and soak")}</span> <span class="turn-hints">{cyclesWords(value)}</span>
      </summary>
      <div class="field-row">
        <NumberField
          label={t("Cycles")}
          value={value.cycles}
          least={1}
          most={MOST_CYCLES}
          required
          disabled={disabled}
          onChange={(cycles) => onChange({ ...value, cycles: cycles ?? 1 })}
          onFault={report("cycles")}
        />
        <DurationField
          label={t("Soak between")}
          value={value.soak_s}
          least={0}
          most={MOST_SOAK_S}
          required
          disabled={disabled}
          onChange={(soak_s) => onChange({ ...value, soak_s: soak_s ?? 0 })}
          onFault={report("soak_s")}
        />
      </div>
    </details>
  );
}
