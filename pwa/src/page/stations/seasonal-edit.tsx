/** The seasonal percentage of the whole site or of one program, with its effect: for any screen that has room for it. */

import { useState } from "preact/hooks";
import { draftOf, putDraft } from "../edits/drafts";
import { KeepBar } from "../edits/keep-bar";
import { EffectView } from "../effect/effect-view";
import { useEffectOf } from "../effect/watching";
import { effectWords } from "../records/effect-words";
import type { SiteDocument } from "../site/document";
import type { Change } from "../store/shapes";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { shortDay } from "../words/moments";
import { pctOf } from "./seasonal";
import { SeasonalStepper } from "./seasonal-stepper";
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
  const pct = (given: number) => t("{figure} %", { figure: figure(given, 0) });
  return (
    <div class="turn-edit">
      <div class="turn-values">
        <WhoMay />
        <SeasonalStepper name={of} value={value} was={was} onChange={put} onFault={setFault} />
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
