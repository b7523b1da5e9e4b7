/** One audit: what ran, where the cans stand, what they caught, and what that says. */

import { useState } from "preact/hooks";
import { cautionsFor } from "../../records/cautions";
import { changesWith } from "../../records/desk";
import { type Form, formOf, type KeepOutcome, putBack } from "../../records/form";
import { GroupControl } from "../../records/group-control";
import { textOf } from "../../records/records";
import { SaveBar } from "../../records/save-bar";
import { StateBadge } from "../../records/state-badge";
import type { SiteRecord } from "../../site/document";
import { refine } from "../../way/way";
import { t } from "../../words/catalogue";
import { useWetting } from "./asking";
import { CanTable } from "./can-table";
import { CansSection } from "./cans-section";
import { cansOf, othersOf, putOthers, withOthers } from "./drafting";
import { Figures } from "./figures";
import { type Can, extentOf } from "./grid";
import { type Measure, measureOf } from "./measure";
import { OpeningField } from "./opening-field";
import { RemoveAudit } from "./remove-audit";
import { Together } from "./together";
import { WettingPicture } from "./wetting-picture";

/** `name`: the draft's; `id`: the audit's. */
export function AuditPage({ name, id }: { name: string; id: string }) {
  const form = formOf(name, "audits", id);
  if (!form.record) return <p class="need-note">{t("This audit is not there. Somebody may have removed it.")}</p>;
  return <Sheet form={form} audit={form.record} />;
}

function Sheet({ form, audit }: { form: Form; audit: SiteRecord }) {
  const [outcome, setOutcome] = useState<KeepOutcome | null>(null);
  const cans = cansOf(form.records, audit.id);
  const measure = measureOf(audit);
  const whole = { ...form, changes: changesWith(withOthers(form.draft, audit, cans, othersOf(form.name))) };
  return (
    <div class="audit">
      <div class="audit-hand">
        {form.was ? <StateBadge table="audits" id={audit.id} long /> : null}
        <Cautions form={form} audit={audit} />
        <WhatRan form={form} />
        <CansSection form={form} audit={audit} cans={cans} measure={measure} />
      </div>
      <Said form={form} cans={cans} measure={measure} />
      <div class="audit-foot">
        <section class="record-section" aria-label={t("Notes")}>
          <GroupControl form={form} field="notes" />
        </section>
        <RemoveAudit form={form} onOutcome={setOutcome} />
      </div>
      <SaveBar
        form={whole}
        outcome={outcome}
        onOutcome={(found) => {
          setOutcome(found);
          if (found === "kept") leave(form, audit.id);
        }}
        onPutBack={() => {
          setOutcome(null);
          leave(form, null);
        }}
      />
    </div>
  );
}

/** What was new has a page of its own once it is kept; only then its draft is let go of. */
function leave(form: Form, kept: string | null): void {
  if (form.was === undefined) refine("need", "audits", ...(kept ? [kept] : []));
  putOthers(form.name, []);
  putBack(form.name);
}

function WhatRan({ form }: { form: Form }) {
  return (
    <section class="record-section" aria-labelledby="audit-ran">
      <h2 id="audit-ran">{t("What ran")}</h2>
      <div class="record-fields">
        <GroupControl form={form} field="name" />
        <GroupControl form={form} field="station" />
        {form.was || !form.mayEdit ? null : <Together form={form} />}
        <GroupControl form={form} field="day" />
        <GroupControl form={form} field="run_s" />
        <GroupControl form={form} field="caught_in" />
        {textOf(form.record, "caught_in") === "ml" ? <OpeningField form={form} /> : null}
        <GroupControl form={form} field="spacing_m" />
      </div>
    </section>
  );
}

function Said({ form, cans, measure }: { form: Form; cans: readonly Can[]; measure: Measure }) {
  const state = useWetting(form);
  const read = cans.some((can) => can.catch !== null);
  const lowest = (state.is === "known" && state.told.wetting?.lowest) || [];
  if (!read) return null;
  return (
    <aside class="audit-said-side" aria-label={t("What the cans say")}>
      <Figures form={form} state={state} />
      <section class="record-section" aria-labelledby="audit-picture">
        <h2 id="audit-picture">{t("Where the water falls")}</h2>
        <WettingPicture cans={cans} extent={extentOf(cans)} measure={measure} lowest={lowest} />
        <CanTable cans={cans} measure={measure} lowest={lowest} />
      </section>
    </aside>
  );
}

function Cautions({ form, audit }: { form: Form; audit: SiteRecord }) {
  const station = form.records.get("stations", textOf(audit, "station"));
  const lines = [
    ...(station ? cautionsFor(station, form.records) : []),
    t(
      "Caution: an audit runs a station while people walk among its heads. Look that nobody stands in the spray, keep clear of heads as they rise, and mind wet ground: it is slippery.",
    ),
    t(
      "Nothing here opens a valve. Lines stay under pressure when it is shut; work on pipes and in cabinets is for qualified people under your local codes.",
    ),
  ];
  return (
    <div class="cautions" role="note">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
