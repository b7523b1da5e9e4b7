/** Lines of water as a table: allowed, planned, used and left. */

import { t } from "../../words/catalogue";
import { volume } from "../../words/units";
import type { Water } from "./year";

interface WaterTableProps {
  label: string;
  /** What a line is. */
  head: string;
  rows: readonly { key: string; name: string; water: Water }[];
}

export function WaterTable({ label, head, rows }: WaterTableProps) {
  const titles = [t("Allowed"), t("Planned"), t("Used"), t("Left")];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard
    <section class="table-scroll" aria-label={label} tabIndex={0}>
      <table>
        <thead>
          <tr>
            <th scope="col">{head}</th>
            {titles.map((title) => (
              <th key={title} scope="col" class="budget-figure">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, name, water }) => (
            <tr key={key}>
              <th scope="row">
                <bdi>{name}</bdi>
              </th>
              <td class="budget-figure">{volume(water.allowed_l)}</td>
              <td class="budget-figure">{volume(water.planned_l)}</td>
              <td class="budget-figure">{volume(water.used_l)}</td>
              <td class={water.used_l > water.allowed_l ? "budget-figure budget-over" : "budget-figure"}>
                {volume(water.allowed_l - water.used_l)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
