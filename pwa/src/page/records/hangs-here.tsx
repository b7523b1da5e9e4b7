/** What refers to a record: the stations on a supply, the turns of a station, the windows that speak of a program. */

import { useState } from "preact/hooks";
import type { SiteRecord } from "../site/document";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { isTable, TABLES } from "./fields";
import type { Form } from "./form";
import { recordTitle, refTitle } from "./record-words";
import { textOf } from "./records";
import { referrersOf } from "./references";
import { countOf } from "./table-words";

const SHOWN = 6;
/** A program's turns stand on its page already; nothing refers to a window, a closure or a pair. */
const OTHERS_HANG_ON: readonly string[] = ["supplies", "controllers", "hydrozones", "stations", "audits"];

export function HangsHere({ form }: { form: Form }) {
  if (!form.was || !OTHERS_HANG_ON.includes(form.table)) return null;
  const shown = referrersOf(form.records, form.table, form.was.id).map(({ record }) => record);
  const tables = TABLES.filter((table) => shown.some((record) => record.table === table));
  return (
    <section class="record-section" aria-labelledby="section-hangs">
      <h2 id="section-hangs">{t("What hangs on it")}</h2>
      {tables.length === 0 ? <p class="record-note">{t("Nothing refers to it.")}</p> : null}
      {tables.map((table) => (
        <Group key={table} form={form} found={unique(shown.filter((record) => record.table === table))} />
      ))}
    </section>
  );
}

function unique(found: SiteRecord[]): SiteRecord[] {
  return [...new Map(found.map((record) => [record.id, record])).values()];
}

function Group({ form, found }: { form: Form; found: SiteRecord[] }) {
  const [all, setAll] = useState(false);
  const [first] = found;
  if (!first || !isTable(first.table)) return null;
  const more = found.length - SHOWN;
  return (
    <>
      <h3 class="hangs-head">{countOf(first.table, found.length)}</h3>
      <ul class="hangs">
        {found.slice(0, all ? undefined : SHOWN).map((record) => (
          <li key={record.id}>
            <button type="button" class="hangs-one" onClick={() => open(record)}>
              <bdi>{nameOf(form, record)}</bdi>
            </button>
          </li>
        ))}
        {more > 0 && !all ? (
          <li>
            <button type="button" class="hangs-one" onClick={() => setAll(true)}>
              {tn("Show the other {count}", "Show the other {count}", more)}
            </button>
          </li>
        ) : null}
      </ul>
    </>
  );
}

/** A turn and an extra run are seen from the other side: a station's by their program, a program's by their station. */
function nameOf(form: Form, record: SiteRecord): string {
  if (record.table !== "turns" && record.table !== "asked") return recordTitle(record, form.records);
  const side = form.table === "stations" && textOf(record, "program") ? "program" : "station";
  return refTitle(record, textOf(record, side) ? side : "program", form.records);
}

function open(record: SiteRecord): void {
  if (record.table === "turns") go("stations", textOf(record, "station"), "turn", record.id);
  else if (record.table === "asked") go("stations", textOf(record, "station"));
  else if (record.table === "repairs") go("wet-check", "repairs", record.id);
  else go("site", record.table, record.id);
}
