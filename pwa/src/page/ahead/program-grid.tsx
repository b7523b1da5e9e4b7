/** Which programs water when: a line for each program, a column for each night. */

import { ProgramChip } from "../tonight/program-chip";
import { refine } from "../way/way";
import { t } from "../words/catalogue";
import { shortDay } from "../words/moments";
import { columnParts } from "./day-parts";
import { type GridLine, gridOf } from "./grid";
import { GridCell } from "./grid-cell";
import { followKeys } from "./grid-keys";
import type { Outlook } from "./outlook";

export function ProgramGrid({ outlook }: { outlook: Outlook }) {
  const lines = gridOf(outlook.document, outlook.dates, outlook.nights);
  if (lines.length === 0) return <p class="list-none">{t("This site has no programs yet.")}</p>;
  return (
    <section class="program-grid" aria-labelledby="grid-title">
      <h2 id="grid-title" class="unseen">
        {t("Programs by night")}
      </h2>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: arrow keys from field to field; each field is a button */}
      <div class="grid-scroll" onKeyDown={followKeys}>
        <table>
          <thead>
            <tr>
              <th scope="col" class="grid-corner">
                {t("Program")}
              </th>
              {outlook.dates.map((date) => (
                <ColumnHead key={date} date={date} tonight={date === outlook.tonight} />
              ))}
            </tr>
          </thead>
          <tbody>
            {lines.map((line, index) => (
              <tr key={line.who ?? ""}>
                <LineHead line={line} />
                {outlook.dates.map((date, column) => (
                  <GridCell key={date} line={line} date={date} spot={{ line: index, column }} outlook={outlook} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function ColumnHead({ date, tonight }: { date: string; tonight: boolean }) {
  const { weekday, day } = columnParts(date);
  return (
    <th scope="col" class={tonight ? "grid-tonight" : undefined}>
      <span class="unseen">{tonight ? t("Tonight, {date}", { date: shortDay(date) }) : shortDay(date)}</span>
      <span aria-hidden="true" class="grid-weekday">
        {weekday}
      </span>
      <span aria-hidden="true" class="grid-day">
        {day}
      </span>
    </th>
  );
}

/** The program's name leads to its own fourteen nights. */
function LineHead({ line: { program, who } }: { line: GridLine }) {
  return (
    <th scope="row" class="grid-name">
      {program ? (
        <button type="button" class="grid-program" onClick={() => refine("ahead", "program", who ?? "")}>
          <ProgramChip program={program} />
          <bdi>{program.name}</bdi>
        </button>
      ) : (
        <span class="grid-program">
          <ProgramChip program={undefined} />
          {t("Asked for")}
        </span>
      )}
    </th>
  );
}
