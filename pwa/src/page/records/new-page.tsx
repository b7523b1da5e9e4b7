/** A record that is being made: its draft begins once, and stays on the desk until it is kept or discarded. */

import { useEffect } from "preact/hooks";
import { newId } from "../store/ids";
import { mayEdit } from "../store/queries";
import { beginning } from "./beginning";
import { draftOf, putDraft, records } from "./desk";
import { EMPTY, splitKey, withRecord } from "./draft";
import type { Table } from "./fields";
import { RecordPage } from "./record-page";
import { TablePage } from "./table-page";

export function NewPage({ table, word }: { table: Table; word: string }) {
  const name = `${table}/${word}`;
  const [key] = draftOf(name).keys();
  useEffect(() => {
    if (key === undefined && mayEdit.value) {
      putDraft(name, withRecord(EMPTY, beginning(table, word, records.value, newId())));
    }
  }, [name, key, mayEdit.value]);
  if (!mayEdit.value) return <TablePage table={table} />;
  if (key === undefined) return null;
  return <RecordPage name={name} table={table} id={splitKey(key)[1]} />;
}
