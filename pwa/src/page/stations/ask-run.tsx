/** Asking for an extra run, now or tonight, of a station or a whole program: with the caution first, and its effect. */

import { useMemo, useState } from "preact/hooks";
import { Choice } from "../controls/choice";
import { ClockField } from "../controls/clock-field";
import { readLength } from "../controls/duration-field";
import { Stepper } from "../controls/stepper";
import type { Read } from "../controls/typed";
import { KeepBar } from "../edits/keep-bar";
import { EffectView } from "../effect/effect-view";
import { firstNight, knownNights } from "../effect/grounds";
import { nightTitle } from "../effect/phrases";
import { useEffectOf } from "../effect/watching";
import { now } from "../night/now";
import { effectWords } from "../records/effect-words";
import { SiteClock } from "../site/clock";
import type { SiteDocument } from "../site/document";
import { newId } from "../store/ids";
import { mayEdit, person } from "../store/queries";
import { refine } from "../way/way";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { AskWhat } from "./ask-what";
import { type Asking, askedChange, cautionsFor, FIRST_RUN_S, type When } from "./asking";
import { Detail } from "./detail";
import { LEAST_S, MOST_S } from "./run-times";
import { minutesText, minutesUnit, stepName } from "./run-words";
import { WhoMay } from "./who-may";

export function AskRun({ document, station }: { document: SiteDocument; station: string | null }) {
  const [asking, setAsking] = useState<Asking>({ station, program: null, run_s: FIRST_RUN_S, when: "fits", at: null });
  const [fault, setFault] = useState<Record<string, string | null>>({});
  const put = (part: Partial<Asking>) => setAsking((all) => ({ ...all, ...part }));
  const report = (field: string) => (words: string | null) => setFault((all) => ({ ...all, [field]: words }));
  const changes = useChange(asking);
  const leave = () => (station ? refine("stations", station) : refine("stations"));
  const effect = useEffectOf(mayEdit.value ? changes : [], firstNight.value);
  const what = document.nameOf(asking.station ? "station" : "program", asking.station ?? asking.program ?? "");
  return (
    <Detail title={t("Ask for a run")} sub={<bdi>{what}</bdi>}>
      <div class="turn-edit">
        <div class="turn-values">
          <WhoMay />
          <ul class="cautions" aria-label={t("Caution")}>
            {cautionsFor(document, asking).map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          {mayEdit.value ? (
            <>
              {station ? null : <AskWhat document={document} asking={asking} onChange={put} />}
              {asking.station ? <Minutes asking={asking} put={put} report={report("run_s")} /> : null}
              <WhenField asking={asking} put={put} report={report("at")} />
            </>
          ) : null}
        </div>
        {mayEdit.value && changes.length > 0 ? (
          <>
            <div class="turn-effect">
              <EffectView state={effect} changes={changes} title={nightTitle} turn={null} />
            </div>
            <KeepBar
              changes={changes}
              gist={effectWords(effect)}
              said={() => t("Asked for a run of {what}.", { what })}
              back={t("Do not ask")}
              onBack={leave}
              keep={asking.station ? t("Ask for {run}", { run: duration(asking.run_s) }) : t("Ask for the program")}
              onKept={leave}
              faults={Object.values(fault).filter((words) => words !== null)}
            />
          </>
        ) : null}
      </div>
    </Detail>
  );
}

/** None as long as it is not said what should run, or no night is known to run it in. */
function useChange(asking: Asking) {
  const id = useMemo(() => newId(), []);
  const night = firstNight.value;
  const clock = knownNights.value.get(night)?.clock;
  const said = (asking.station || asking.program) && (asking.when !== "at" || asking.at);
  if (!clock || !said) return [];
  return [askedChange(asking, night, person.value?.name ?? "", id, new SiteClock(clock), now.value)];
}

interface PartProps {
  asking: Asking;
  put: (part: Partial<Asking>) => void;
  report: (fault: string | null) => void;
}

function Minutes({ asking, put, report }: PartProps) {
  const read = (text: string) => readLength(text, { label: t("How long"), least: 1, most: MOST_S, required: true });
  return (
    <Stepper
      label={t("How long")}
      value={asking.run_s}
      was={asking.run_s}
      least={LEAST_S}
      most={MOST_S}
      size={60}
      write={minutesText}
      unit={minutesUnit(asking.run_s)}
      read={(text) => read(text) as Read<number>}
      stepName={stepName}
      onChange={(run_s) => put({ run_s })}
      onFault={report}
    />
  );
}

function WhenField({ asking, put, report }: PartProps) {
  return (
    <>
      <Choice<When>
        label={t("When")}
        value={asking.when}
        options={[
          { value: "fits", label: t("Tonight, as soon as there is water") },
          { value: "now", label: t("Now") },
          { value: "at", label: t("At a time") },
        ]}
        onChange={(when) => put({ when, at: when === "at" ? (asking.at ?? "22:00") : asking.at })}
      />
      {asking.when === "at" ? (
        <ClockField
          label={t("Start")}
          value={asking.at}
          required
          sun={false}
          onChange={(at) => put({ at })}
          onFault={report}
        />
      ) : null}
    </>
  );
}
