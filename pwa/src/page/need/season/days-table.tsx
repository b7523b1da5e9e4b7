/** The season as a table, newest day first: for those who hear the page, and those who would rather read. */

import { t } from "../../words/catalogue";
import { shortDay } from "../../words/moments";
import { depth } from "../told/amounts";
import { rungShort } from "../told/rungs";
import type { SeasonDay } from "../told/shapes";
import { isStressed } from "./days";

export function DaysTable({ days, open }: { days: readonly SeasonDay[]; open: boolean }) {
  const titles = [
    t("Day"),
    t("Rain"),
    t("Watering"),
    t("Plants used"),
    t("Lacks"),
    t("Stress begins at"),
    t("Under stress"),
    t("Weather"),
  ];
  return (
    <details class="as-table" open={open}>
      <summary>{t("The days as a table")}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard */}
      <section class="table-scroll season-table" aria-label={t("The days as a table")} tabIndex={0}>
        <table>
          <thead>
            <tr>
              {titles.map((title) => (
                <th key={title} scope="col">
                  {title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {[...days].reverse().map((day) => (
              <DayRow key={day.day} day={day} />
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

function DayRow({ day }: { day: SeasonDay }) {
  return (
    <tr data-day={day.day}>
      <th scope="row">{shortDay(day.day)}</th>
      <td>{depth(day.rain_mm)}</td>
      <td>{depth(day.applied_mm)}</td>
      <td>{depth(day.taken_mm)}</td>
      <td>{depth(day.depletion_mm)}</td>
      <td>{depth(day.ready_mm)}</td>
      <td>{isStressed(day) ? t("yes") : t("no")}</td>
      <td>{rungShort(day.rung)}</td>
    </tr>
  );
}
