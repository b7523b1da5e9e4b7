/** While water is short: how much of its need each priority gets, and what that does to tonight. */

import "../../look/effect.css";
import "../../look/need-drought.css";
import "../../look/stations.css";
import { useState } from "preact/hooks";
import { KeepBar } from "../../edits/keep-bar";
import { firstNight } from "../../effect/grounds";
import { effectWords } from "../../records/effect-words";
import type { SiteDocument } from "../../site/document";
import { WhoMay } from "../../stations/who-may";
import { site } from "../../store/queries";
import { t } from "../../words/catalogue";
import { PlanningAid } from "../planning-aid";
import { ByHandAlone } from "./by-hand";
import { droughtOn } from "./drought";
import { DroughtEffect } from "./drought-effect";
import { DroughtForm } from "./drought-form";
import { OtherDroughts } from "./other-droughts";
import { draftedOn, putSetting } from "./setting";
import { useDroughtEffect } from "./use-drought-effect";

export function DroughtPage(_: { words: string[] }) {
  const document = site.value;
  const night = firstNight.value;
  return document && night ? <Page document={document} night={night} /> : null;
}

function Page({ document, night }: { document: SiteDocument; night: string }) {
  const [faults, setFaults] = useState<Record<string, string | null>>({});
  const drought = droughtOn(document, night);
  const { setting, changes } = draftedOn(drought, night);
  const found = useDroughtEffect(changes, night);
  const byNeed = document.all("turns").some((turn) => turn.mode === "need");
  const drop = () => putSetting(drought, night, null);
  const wrong = [
    ...Object.values(faults),
    setting.ends && setting.ends < setting.starts ? t("The last night must not lie before the first.") : null,
  ].filter((fault): fault is string => Boolean(fault));
  return (
    <div class="drought">
      <div class="drought-set">
        <WhoMay />
        {byNeed ? null : <ByHandAlone />}
        <DroughtForm
          document={document}
          setting={setting}
          night={night}
          known={drought !== null}
          onSet={(set) => putSetting(drought, night, set)}
          onFault={(name, fault) => setFaults((all) => ({ ...all, [name]: fault }))}
        />
        <OtherDroughts document={document} shown={drought} night={night} />
      </div>
      {byNeed ? <DroughtEffect document={document} changes={changes} found={found} /> : null}
      <PlanningAid />
      {changes.length > 0 || wrong.length > 0 ? (
        <KeepBar
          changes={changes}
          gist={effectWords(found.effect)}
          said={() => t("Kept the drought rules.")}
          back={t("Put back the drought rules")}
          onBack={drop}
          keep={t("Keep the drought rules")}
          onKept={drop}
          faults={wrong}
        />
      ) : null}
    </div>
  );
}
