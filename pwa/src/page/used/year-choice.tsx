/** Which year is looked at: from one to the next, no further than this one. */

import { refine } from "../way/way";
import { t } from "../words/catalogue";
import { type By, isYear, thisYear } from "./asking";
import { yearName } from "./words";

export function YearChoice({ year, by }: { year: number; by: By }) {
  return (
    <div class="used-years">
      <Way to={year - 1} by={by} />
      <h2 aria-live="polite">{t("The year {year}", { year: yearName(year) })}</h2>
      <Way to={year + 1} by={by} />
    </div>
  );
}

function Way({ to, by }: { to: number; by: By }) {
  const off = !isYear(to) || to > thisYear();
  return (
    <button type="button" class="button" disabled={off} onClick={() => refine("more", "used", String(to), by)}>
      {yearName(to)}
    </button>
  );
}
