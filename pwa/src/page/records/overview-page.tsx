/** The site's records at a glance, in the trade's order, each table with its count and what matters of it. */

import { site } from "../store/queries";
import { RoomHead } from "../way/room-head";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { records } from "./desk";
import type { Table } from "./fields";
import { lineOf, SHOWN } from "./overview";
import { SupplyTree } from "./supply-tree-view";
import { countOf, tableAbout, tableTitle } from "./table-words";

export function OverviewPage() {
  return (
    <>
      <RoomHead title={t("Site")} sub={<bdi>{site.value?.name ?? ""}</bdi>} back="more" />
      <div class="overview">
        <main class="overview-main">
          <p class="record-note">
            {t("Everything the schedule is made of. Changes are kept on this phone first, with or without signal.")}
          </p>
          <ul class="overview-tables">
            <li>
              <button type="button" class="row overview-row" onClick={() => go("need")}>
                <span class="row-what">
                  <span class="row-name">{t("Water need")}</span>
                  <span class="row-under">{t("From weather to minutes, season by season")}</span>
                </span>
              </button>
            </li>
            {SHOWN.map((table) => (
              <li key={table}>
                <TableRow table={table} />
              </li>
            ))}
          </ul>
        </main>
        <section class="overview-tree" aria-labelledby="overview-tree">
          <h2 id="overview-tree">{t("How the water comes")}</h2>
          <SupplyTree />
        </section>
      </div>
    </>
  );
}

function TableRow({ table }: { table: Table }) {
  const count = records.value.of(table).length;
  return (
    <button type="button" class="row overview-row" onClick={() => go("site", table)}>
      <span class="row-what">
        <span class="row-name">{tableTitle(table)}</span>
        <span class="row-under">{lineOf(table) || tableAbout(table)}</span>
      </span>
      {table === "site" ? null : (
        <span class="overview-count">
          <span aria-hidden="true">{figure(count, 0)}</span>
          <span class="unseen">{countOf(table, count)}</span>
        </span>
      )}
    </button>
  );
}
