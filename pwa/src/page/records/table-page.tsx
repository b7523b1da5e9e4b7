/** One table's records, and the way to a new one. */

import { mayEdit } from "../store/queries";
import { RoomHead } from "../way/room-head";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { records } from "./desk";
import type { Table } from "./fields";
import { RecordList } from "./record-list";
import { addLabel, countOf, noneYet, tableAbout, tableTitle } from "./table-words";

export function TablePage({ table }: { table: Table }) {
  const count = records.value.of(table).length;
  return (
    <>
      <RoomHead title={tableTitle(table)} sub={countOf(table, count)} back="site" />
      <main class="table-page">
        <div class="table-about">
          <p class="record-note">{count ? tableAbout(table) : noneYet(table)}</p>
          {mayEdit.value ? <Adding table={table} /> : null}
        </div>
        <div class="table-list">
          <RecordList table={table} />
        </div>
      </main>
    </>
  );
}

function Adding({ table }: { table: Table }) {
  return (
    <div class="table-adding">
      <button type="button" class="button button-keep" onClick={() => go("site", table, "new")}>
        {addLabel(table)}
      </button>
      {table === "closures" ? (
        <button type="button" class="button" onClick={() => go("site", table, "tonight")}>
          {t("Close tonight from … to …")}
        </button>
      ) : null}
    </div>
  );
}
