/** The seasonal percentage of the whole site or of one program, with its effect: for any screen that has room for it. */

import { useState } from "preact/hooks";
import { readNumber } from "../controls/number-field";
import { Stepper } from "../controls/stepper";
import type { Read } from "../controls/typed";
import { draftOf, putDraft } from "../edits/drafts";
import { KeepBar } from "../edits/keep-bar";
import { EffectView } from "../effect/effect-view";
import { useEffectOf } from "../effect/watching";
import { effectWords } from "../records/effect-words";
import type { SiteDocument } from "../site/document";
import { mayEdit } from "../store/queries";
import type { Change } from "../store/shapes";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { shortDay } from "../words/moments";
import { MOST_PCT, pctOf } from "./seasonal";
import { WhoMay } from "./who-may";

interface SeasonalEditProps {
  document: SiteDocument;
  table: "site" | "programs";
  record: string;
}

export function SeasonalEdit({ document, table, record }: SeasonalEditProps) {
  const [fault, setFault] = useState<string | null>(null);
  const name = `seasonal/${table}/${record}`;
  const was = pctOf(document, table, record);
  const value = draftOf<number>(name) ?? was;
  const put = (pct: number) => putDraft(name, pct === was ? null : pct);
  const changes: Change[] = value === was ? [] : [{ kind: "set", table, record, field: "seasonal_pct", now: value }];
  const of = document.nameOf(table === "site" ? "site" : "program", record);
  const effect = useEffectOf(changes, null);
  const label = t("Seasonal percentage");
  const pct = (given: number) => t("{figure} %", { figure: figure(given, 0) });
  return (
    <div class="turn-edit">
      <div class="turn-values">
        <WhoMay />
        <Stepper
          label={t("Seasonal percentage of {name}", { name: of })}
          hint={t("Every run time is multiplied by it; 100 leaves them as they are.")}
          value={value}
          was={was}
          least={0}
          most={MOST_PCT}
          steps={[-10, -5, 5, 10]}
          write={(given) => figure(given, 0)}
          unit={t("%")}
          read={(text) => readNumber(text, { label, least: 0, most: MOST_PCT, required: true }) as Read<number>}
          stepName={(by) =>
            by > 0 ? t("{percent} percent more", { percent: by }) : t("{percent} percent less", { percent: -by })
          }
          disabled={!mayEdit.value}
          onChange={put}
          onFault={setFault}
        />
      </div>
      {changes.length > 0 ? (
        <>
          <div class="turn-effect">
            <EffectView
              state={effect}
              changes={changes}
              turn={null}
              title={(night, tonight) =>
                tonight
                  ? t("Tonight at {percent}", { percent: pct(value) })
                  : t("{date} at {percent}", { date: shortDay(night), percent: pct(value) })
              }
            />
          </div>
          <KeepBar
            changes={changes}
            gist={effectWords(effect)}
            said={() => t("Kept {percent} for {name}.", { percent: pct(value), name: of })}
            back={t("Put back {run}", { run: pct(was) })}
            onBack={() => putDraft(name, null)}
            keep={t("Keep {run}", { run: pct(value) })}
            onKept={() => putDraft(name, null)}
            faults={fault ? [fault] : []}
          />
        </>
      ) : null}
    </div>
  );
}
