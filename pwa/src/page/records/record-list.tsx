/** A table's records, each a row with its name and what matters of it. Supplies stand as the tree they are. */

import { useState } from "preact/hooks";
import type { SiteRecord } from "../site/document";
import { t, tn } from "../words/catalogue";
import { foldedText } from "./choosing";
import { records } from "./desk";
import type { Table } from "./fields";
import { RecordRow } from "./record-row";
import { recordLine, recordTitle } from "./record-words";
import type { Records } from "./records";
import { SupplyTree } from "./supply-tree-view";
import { TextSearch } from "./text-search";

const SHOWN = 60;
const SEARCH_FROM = 12;

interface RecordListProps {
  table: Table;
  /** The one that is open beside the list. */
  open?: string | undefined;
}

export function RecordList({ table, open }: RecordListProps) {
  const [asked, setAsked] = useState("");
  const [most, setMost] = useState(SHOWN);
  const all = records.value.of(table);
  const fitting = asked ? all.filter((record) => fits(record, records.value, asked)) : all;
  if (table === "supplies" && !asked) return <SupplyTree open={open} />;
  return (
    <>
      {all.length > SEARCH_FROM ? <TextSearch value={asked} onChange={setAsked} /> : null}
      <ul class="record-rows">
        {fitting.slice(0, most).map((record) => (
          <li key={record.id}>
            <RecordRow record={record} records={records.value} open={record.id === open} />
          </li>
        ))}
      </ul>
      {fitting.length === 0 && asked ? <p class="list-none">{t("Nothing fits.")}</p> : null}
      {fitting.length > most ? (
        <button type="button" class="button record-more" onClick={() => setMost(most + SHOWN * 2)}>
          {tn("Show the other {count}", "Show the other {count}", fitting.length - most)}
        </button>
      ) : null}
    </>
  );
}

function fits(record: SiteRecord, all: Records, asked: string): boolean {
  const text = foldedText(`${recordTitle(record, all)} ${recordLine(record, all)}`);
  return foldedText(asked)
    .split(/\s+/)
    .every((word) => text.includes(word));
}
