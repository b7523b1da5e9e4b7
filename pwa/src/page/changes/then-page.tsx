/** The site as it stood on a date, and what has changed since. */

import { useEffect, useState } from "preact/hooks";
import { arrow } from "../effect/phrases";
import { LineFault } from "../line/fetching";
import { fieldLabel } from "../records/field-labels";
import { recordTitle } from "../records/record-words";
import { Records } from "../records/records";
import { copy } from "../store/queries";
import { t, tn } from "../words/catalogue";
import { documentAt } from "./book";
import { endOfDay, todayOnSite } from "./days";
import { type Difference, difference, isEmpty } from "./difference";
import { records } from "./ground";
import { valueWords } from "./values";

type Then = { is: "reading" } | { is: "read"; records: Records } | { is: "failed"; detail: string };

export function ThenPage() {
  const [date, setDate] = useState(() => todayOnSite());
  const [then, setThen] = useState<Then>({ is: "reading" });
  const site = copy.value?.site;
  useEffect(() => {
    if (!site) return;
    let wanted = true;
    setThen({ is: "reading" });
    void readThen(date).then((found) => wanted && setThen(found));
    return () => {
      wanted = false;
    };
  }, [date, site]);
  return (
    <section class="then" aria-labelledby="then-title" aria-busy={then.is === "reading"}>
      <div class="list-head">
        <h2 id="then-title">{t("As it stood on a date")}</h2>
      </div>
      <label class="history-filter then-date">
        <span>{t("At the end of")}</span>
        <input
          type="date"
          value={date}
          max={todayOnSite()}
          onChange={(event) => event.currentTarget.value && setDate(event.currentTarget.value)}
        />
      </label>
      {then.is === "read" ? (
        <Since then={then.records} />
      ) : (
        <p class="list-none" role="status">
          {thenWords(then)}
        </p>
      )}
    </section>
  );
}

function thenWords(then: Exclude<Then, { is: "read" }>): string {
  if (then.is === "reading") return t("Reading the site as it stood…");
  return then.detail || t("This needs signal. Try again when there is some.");
}

async function readThen(date: string): Promise<Then> {
  try {
    return { is: "read", records: new Records((await documentAt(endOfDay(date))).records) };
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    return { is: "failed", detail: fault.detail };
  }
}

function Since({ then }: { then: Records }) {
  const found = difference(then.all, copy.value?.records ?? []);
  return (
    <div class="then-since">
      <p class="list-none" role="status">
        {isEmpty(found) ? t("Nothing has changed since then.") : counted(found)}
      </p>
      <ul class="rows" data-list="since">
        {found.changed.map(({ table, record, field, stood, now }) => (
          <li key={`${table} ${record} ${field}`} class="change-act">
            <bdi>
              {t("{field} of {record}: {was} {arrow} {now}", {
                field: fieldLabel(table, field),
                record: recordTitle(records.value.get(table, record), records.value),
                was: valueWords(table, field, stood, then),
                arrow: arrow(),
                now: valueWords(table, field, now, records.value),
              })}
            </bdi>
          </li>
        ))}
        {found.added.map((record) => (
          <li key={`${record.table} ${record.id}`} class="change-act">
            <bdi>{t("{record}: added since", { record: recordTitle(record, records.value) })}</bdi>
          </li>
        ))}
        {found.removed.map((record) => (
          <li key={`${record.table} ${record.id}`} class="change-act">
            <bdi>{t("{record}: removed since", { record: recordTitle(record, then) })}</bdi>
          </li>
        ))}
      </ul>
    </div>
  );
}

function counted({ added, removed, changed }: Difference): string {
  return t("Since then: {changed}, {added}, {removed}.", {
    changed: tn("{count} field changed", "{count} fields changed", changed.length),
    added: tn("{count} record added", "{count} records added", added.length),
    removed: tn("{count} record removed", "{count} records removed", removed.length),
  });
}
