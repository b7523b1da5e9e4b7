/** The room `site`: every record the schedule is made of, to read and to change. */

import "../look/controls.css";
import "../look/record-form.css";
import "../look/records.css";
import { Patterns } from "../picture/patterns";
import { copy } from "../store/queries";
import { RoomHead } from "../way/room-head";
import { t } from "../words/catalogue";
import { NEW, TONIGHT } from "./beginning";
import { records } from "./desk";
import { isTable } from "./fields";
import { NewPage } from "./new-page";
import { OverviewPage } from "./overview-page";
import { RecordPage } from "./record-page";
import { TablePage } from "./table-page";

/** What is read and changed on pages elsewhere. */
const WITHOUT_A_PAGE: readonly string[] = ["turns", "asked", "repairs"];

export function Room({ words }: { words: string[] }) {
  if (!copy.value) return <NoSite />;
  return (
    <>
      <Patterns />
      <Page words={words} />
    </>
  );
}

function Page({ words: [table, id] }: { words: string[] }) {
  if (!isTable(table) || WITHOUT_A_PAGE.includes(table)) return <OverviewPage />;
  const only = table === "site" ? records.value.site?.id : id;
  if (only === undefined) return <TablePage table={table} />;
  const made = only === NEW || (table === "closures" && only === TONIGHT);
  if (made) return <NewPage key={`${table}/${only}`} table={table} word={only} />;
  return <RecordPage key={`${table}/${only}`} name={`${table}/${only}`} table={table} id={only} />;
}

function NoSite() {
  return (
    <>
      <RoomHead title={t("Site")} back="more" />
      <main class="record">
        <p class="record-note">{t("No site is on this phone yet.")}</p>
      </main>
    </>
  );
}
