/** Which year is looked at: from one to the next. */

import { refine } from "../../way/way";
import { t } from "../../words/catalogue";
import { hasYear } from "./asking";
import { yearName } from "./words";

export function YearChoice({ year }: { year: number }) {
  return (
    <div class="budget-years">
      <Way to={year - 1} />
      <h2 aria-live="polite">{t("The year {year}", { year: yearName(year) })}</h2>
      <Way to={year + 1} />
    </div>
  );
}

function Way({ to }: { to: number }) {
  return (
    <button type="button" class="button" disabled={!hasYear(to)} onClick={() => refine("need", "budget", String(to))}>
      {yearName(to)}
    </button>
  );
}
