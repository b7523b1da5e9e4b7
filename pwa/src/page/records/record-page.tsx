/** One record: its fields, what hangs on it, what changing it does to tonight, and keeping it. */

import { useEffect, useRef, useState } from "preact/hooks";
import { EffectPanel } from "../effect/effect-panel";
import { JournalWay } from "../journal/way";
import { RoomHead } from "../way/room-head";
import { refine } from "../way/way";
import { t } from "../words/catalogue";
import { Cautions } from "./cautions-view";
import type { Table } from "./fields";
import { type Form, formOf, type KeepOutcome, putBack, tellEffect } from "./form";
import { HangsHere } from "./hangs-here";
import { ProgramBody } from "./program-body";
import { RecordActions } from "./record-actions";
import { RecordBody } from "./record-body";
import { RecordList } from "./record-list";
import { recordTitle } from "./record-words";
import { SaveBar } from "./save-bar";
import { SeasonWay } from "./season-way";
import { StateBadge } from "./state-badge";
import { newTitle, tableTitle } from "./table-words";

interface RecordPageProps {
  /** The draft's name on the desk. */
  name: string;
  table: Table;
  id: string;
}

export function RecordPage({ name, table, id }: RecordPageProps) {
  const form = formOf(name, table, id);
  const title = form.was ? recordTitle(form.was, form.records) : newTitle(table);
  return (
    <>
      <RoomHead title={<bdi>{title}</bdi>} sub={table === "site" ? undefined : tableTitle(table)} back="site" />
      <div class={table === "site" ? "records records-alone" : "records"}>
        {table === "site" ? null : <RecordsBeside table={table} id={id} />}
        {form.record ? <Sheet form={form} table={table} /> : <Gone />}
      </div>
    </>
  );
}

/** The list beside the form, at a desk, with what is open in sight. */
function RecordsBeside({ table, id }: { table: Table; id: string }) {
  const list = useRef<HTMLElement>(null);
  useEffect(() => {
    const { current } = list;
    const open = current?.querySelector<HTMLElement>("[aria-current]");
    if (current && open)
      current.scrollTop += open.getBoundingClientRect().top - current.getBoundingClientRect().top - 120;
  }, [table]);
  return (
    <nav ref={list} class="records-list" aria-label={tableTitle(table)}>
      <RecordList table={table} open={id} />
    </nav>
  );
}

function Gone() {
  return (
    <main class="record">
      <p class="record-note">{t("This record is not there. Somebody may have removed it.")}</p>
    </main>
  );
}

function Sheet({ form, table }: { form: Form; table: Table }) {
  const [outcome, setOutcome] = useState<KeepOutcome | null>(null);
  const done = (found: KeepOutcome) => {
    setOutcome(found);
    if (found === "kept") leave(form, table, form.record?.id);
  };
  return (
    <>
      <main class="record">
        {form.was ? <StateBadge table={table} id={form.was.id} long /> : null}
        {form.mayEdit ? null : <ReadOnly form={form} />}
        <Cautions form={form} />
        {table === "programs" ? <ProgramBody form={form} /> : <RecordBody form={form} />}
        {table === "hydrozones" && form.was ? <SeasonWay hydrozone={form.was.id} /> : null}
        <HangsHere form={form} />
        {table === "supplies" && form.was ? (
          <div class="record-section">
            <JournalWay table="supply" id={form.was.id} />
          </div>
        ) : null}
        <RecordActions form={form} onOutcome={setOutcome} />
      </main>
      <aside class="record-effect" id="record-effect">
        <EffectPanel changes={form.changes} onState={(state) => tellEffect(form.name, state)} />
      </aside>
      <SaveBar
        form={form}
        outcome={outcome}
        onOutcome={done}
        onPutBack={() => {
          setOutcome(null);
          leave(form, table);
        }}
      />
    </>
  );
}

/** What was new has a page of its own from now on, or none; only then its draft is let go of, or it would begin anew. */
function leave(form: Form, table: Table, kept?: string): void {
  if (form.was === undefined) refine("site", table, ...(kept ? [kept] : []));
  putBack(form.name);
}

function ReadOnly({ form }: { form: Form }) {
  return (
    <p class="record-note">
      {form.mayNote
        ? t("You can read this and write notes. Leads and managers change it.")
        : t("You can read this. Leads and managers change it.")}
    </p>
  );
}
