/** Between which percentages a program may move, and which steps it takes without a person. */

import { useState } from "preact/hooks";
import { NumberField } from "../../controls/number-field";
import { draftOf, putDraft } from "../../edits/drafts";
import { KeepBar } from "../../edits/keep-bar";
import { fieldHelp } from "../../records/field-helps";
import { fieldLabel } from "../../records/field-labels";
import type { SiteDocument } from "../../site/document";
import { MOST_PCT, pctOf } from "../../stations/seasonal";
import { WhoMay } from "../../stations/who-may";
import { mayEdit } from "../../store/queries";
import { ProgramChip } from "../../tonight/program-chip";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { LIMITS, type Limit, type Limits, limitChanges, limitsOf } from "./suggestions";
import { pct } from "./words";

export function ProgramLimits({ document, program }: { document: SiteDocument; program: string }) {
  const known = document.programs.get(program);
  const name = known?.name ?? program;
  return (
    <div class="limits">
      <h2 class="limits-name">
        <ProgramChip program={known} />
        <bdi>{name}</bdi>
      </h2>
      <button type="button" class="row" onClick={() => go("stations", "seasonal", program)}>
        <span class="row-what">
          <span class="row-name">{t("Seasonal percentage")}</span>
          <span class="row-under">{t("Set it by hand, with its effect")}</span>
        </span>
        <span class="row-end turn-time">{pct(pctOf(document, "programs", program))}</span>
      </button>
      <LimitsForm document={document} program={program} name={name} />
    </div>
  );
}

function LimitsForm({ document, program, name }: { document: SiteDocument; program: string; name: string }) {
  const [faults, setFaults] = useState<Partial<Record<Limit, string | null>>>({});
  const draft = `need/limits/${program}`;
  const was = limitsOf(document, program);
  const now: Limits = { ...was, ...draftOf<Partial<Limits>>(draft) };
  const changes = limitChanges(program, was, now);
  const put = (field: Limit, value: number | null) => {
    const next = { ...now, [field]: value ?? limitsOf(document, "")[field] };
    putDraft(draft, limitChanges(program, was, next).length > 0 ? next : null);
  };
  const crossed = now.seasonal_least_pct > now.seasonal_most_pct;
  const wrong = [...Object.values(faults), crossed ? t("The least must not be above the most.") : null];
  return (
    <>
      <div class="limits-form">
        <WhoMay />
        {LIMITS.map((field) => (
          <NumberField
            key={field}
            label={fieldLabel("programs", field)}
            hint={fieldHelp("programs", field)}
            value={now[field]}
            least={0}
            most={MOST_PCT}
            unit={t("%")}
            disabled={!mayEdit.value}
            onChange={(value) => put(field, value)}
            onFault={(fault) => setFaults((all) => ({ ...all, [field]: fault }))}
          />
        ))}
        <p class="need-aid">
          {t(
            "What a program takes by itself it takes at noon, and each step stands in the history. One that somebody sets back stays back until the next noon.",
          )}
        </p>
      </div>
      {changes.length > 0 || wrong.some(Boolean) ? (
        <KeepBar
          changes={changes}
          said={() => t("Kept the limits of {program}.", { program: name })}
          back={t("Put back the limits")}
          onBack={() => putDraft(draft, null)}
          keep={t("Keep the limits")}
          onKept={() => putDraft(draft, null)}
          faults={wrong.filter((fault): fault is string => Boolean(fault))}
        />
      ) : null}
    </>
  );
}
