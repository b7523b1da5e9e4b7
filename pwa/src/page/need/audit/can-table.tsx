/** The cans as a table: each with its reading, its depth, and how it stands to the mean. */

import { t } from "../../words/catalogue";
import { amount } from "../../words/units";
import { catchWords, percent, placeWords } from "./can-words";
import type { Can } from "./grid";
import type { Measure } from "./measure";

interface CanTableProps {
  cans: readonly Can[];
  measure: Measure;
  lowest: readonly { column: number; row: number }[];
}

export function CanTable({ cans, measure, lowest }: CanTableProps) {
  const read = cans.filter((can) => can.catch !== null);
  const mean = read.reduce((sum, can) => sum + (can.catch ?? 0), 0) / read.length;
  return (
    <details class="as-table audit-table">
      <summary>{t("The cans as a table")}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls sideways, by keys too. */}
      <section class="audit-table-ground" aria-label={t("The cans as a table")} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{t("Can")}</th>
              <th scope="col">{t("Reading")}</th>
              <th scope="col">{t("Depth")}</th>
              <th scope="col">{t("Of the mean")}</th>
            </tr>
          </thead>
          <tbody>
            {cans.map((can) => {
              const depth = can.catch === null ? null : measure.depthMm(can.catch);
              const low = lowest.some((one) => one.column === can.column && one.row === can.row);
              return (
                <tr key={can.id}>
                  <th scope="row">{placeWords(can)}</th>
                  <td>{catchWords(can.catch, measure)}</td>
                  <td>{depth === null ? "—" : amount("depth", depth)}</td>
                  <td>
                    {can.catch === null || !mean ? "—" : percent(can.catch / mean)}
                    {low ? <span class="audit-low">{t("driest quarter")}</span> : null}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
    </details>
  );
}
