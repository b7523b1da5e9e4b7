/** The same two weeks as a table, for those who hear the page or want to read it line by line. */

import { timeAt } from "../night/reading";
import { t } from "../words/catalogue";
import { shortDay } from "../words/moments";
import { volume } from "../words/units";
import { type AheadNight, shareOf } from "./almanac";
import type { Outlook } from "./outlook";
import { notesOf } from "./telling";

export function NightsTable({ outlook }: { outlook: Outlook }) {
  const titles = [t("Night"), t("First water"), t("Finish"), t("Runs"), t("Water"), t("Did not fit"), t("To know")];
  return (
    <details class="as-table">
      <summary>{t("The nights as a table")}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard */}
      <section class="table-scroll" aria-label={t("The nights as a table")} tabIndex={0}>
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
            {outlook.dates.map((date) => (
              <Line key={date} date={date} night={outlook.nights.get(date)} usual={outlook.usual} />
            ))}
          </tbody>
        </table>
      </section>
    </details>
  );
}

interface LineProps {
  date: string;
  night: AheadNight | undefined;
  usual: ReadonlySet<string>;
}

function Line({ date, night, usual }: LineProps) {
  if (!night)
    return (
      <tr>
        <th scope="row">{shortDay(date)}</th>
        <td colSpan={6}>{t("Not worked out yet.")}</td>
      </tr>
    );
  const share = shareOf(night.sheet);
  const time = (instant: number | null) => (instant === null ? "–" : timeAt(night.clock, instant));
  return (
    <tr data-table-night={date}>
      <th scope="row">{shortDay(date)}</th>
      <td>{time(share.first)}</td>
      <td>{time(night.sheet.finish)}</td>
      <td>{share.runs.length}</td>
      <td>{volume(share.volumeL)}</td>
      <td>{volume(share.shortL)}</td>
      <td>
        {notesOf(night, usual).map((note) => (
          <p key={note.key}>{note.text}</p>
        ))}
      </td>
    </tr>
  );
}
