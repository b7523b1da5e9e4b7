/** The same in figures. */

import type { UsedLine } from "../line/api";
import { t } from "../words/catalogue";
import { volume } from "../words/units";
import type { By } from "./asking";
import { hasWater } from "./bars";
import { byWords, lineName } from "./words";

interface LineTableProps {
  lines: readonly UsedLine[];
  total: UsedLine;
  by: By;
}

interface Column {
  title: string;
  figure: (line: UsedLine) => number | null;
  /** What stands where there is no figure. */
  unknown?: string;
}

export function LineTable({ lines, total, by }: LineTableProps) {
  const columns = columnsOf(lines);
  return (
    <details class="as-table" open>
      <summary>{t("As a table")}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard */}
      <section class="table-scroll" aria-label={t("As a table")} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{byWords(by)}</th>
              {columns.map(({ title }) => (
                <th key={title} scope="col" class="used-figure">
                  {title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <Row key={line.key} name={lineName(line, by)} line={line} columns={columns} />
            ))}
            <Row name={t("Together")} line={total} columns={columns} />
          </tbody>
        </table>
      </section>
    </details>
  );
}

function Row({ name, line, columns }: { name: string; line: UsedLine; columns: readonly Column[] }) {
  return (
    <tr>
      <th scope="row">
        <bdi>{name}</bdi>
      </th>
      {columns.map(({ title, figure, unknown }) => (
        <td key={title} class="used-figure">
          {words(figure(line), unknown)}
        </td>
      ))}
    </tr>
  );
}

const words = (litres: number | null, unknown = "") => (litres === null ? unknown : volume(litres));

/** What no line has is left out. */
function columnsOf(lines: readonly UsedLine[]): Column[] {
  const sometimes: Column[] = [
    { title: t("Assumed"), figure: (line) => line.assumed_l },
    { title: t("Lost"), figure: (line) => line.lost_l },
    { title: t("Beyond the plan"), figure: (line) => line.beyond_l },
    { title: t("A year before"), figure: (line) => line.before_l },
    { title: t("Budget"), figure: (line) => line.allowed_l },
  ];
  return [
    { title: t("Planned"), figure: (line) => (hasWater(line) ? line.planned_l : null) },
    { title: t("Delivered"), figure: (line) => (hasWater(line) ? line.delivered_l : null), unknown: t("not known") },
    ...sometimes.filter(({ figure }) => lines.some(figure)),
  ];
}
