/** Month by month in figures; behind each its hydrozones and its bill. */

import type { SiteDocument } from "../../site/document";
import { t } from "../../words/catalogue";
import { money } from "../../words/money";
import { volume } from "../../words/units";
import { WaterTable } from "./water-table";
import { monthWords } from "./words";
import type { Month } from "./year";

interface MonthListProps {
  document: SiteDocument;
  months: readonly Month[];
  currency: string | null;
}

export function MonthList({ document, months, currency }: MonthListProps) {
  return (
    <section aria-labelledby="budget-months">
      <div class="list-head">
        <h2 id="budget-months">{t("Month by month")}</h2>
      </div>
      {months.map((month) => (
        <details key={month.month} class="as-table budget-month" data-month={month.month}>
          <summary>
            <span class="budget-month-name">{monthWords(month.month)}</span>
            <span class="budget-month-water">{waterWords(month)}</span>
            {month.cost?.amount ? <span class="budget-month-cost">{money(month.cost.amount, currency)}</span> : null}
          </summary>
          <WaterTable
            label={monthWords(month.month)}
            head={t("Hydrozone")}
            rows={month.lines.map((line) => ({
              key: line.hydrozone,
              name: document.nameOf("hydrozone", line.hydrozone),
              water: line,
            }))}
          />
        </details>
      ))}
    </section>
  );
}

function waterWords({ allowed_l, planned_l, used_l }: Month): string {
  const words = { used: volume(used_l), planned: volume(planned_l), allowed: volume(allowed_l) };
  if (allowed_l <= 0) return t("{used} used, {planned} planned", words);
  if (used_l > allowed_l)
    return t("{used} used, {over} above the {allowed} allowed", { ...words, over: volume(used_l - allowed_l) });
  return t("{used} used of {allowed}, {planned} planned", words);
}
