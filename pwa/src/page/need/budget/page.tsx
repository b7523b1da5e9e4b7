/** A year's water: what may be used, what is planned and used of it, month by month and hydrozone by hydrozone. */

import "../../look/need-budget.css";
import { useMemo } from "preact/hooks";
import { NeedsSignal } from "../../more/needs-signal";
import { useKnown } from "../../more/use-known";
import { copy, site } from "../../store/queries";
import { PlanningAid } from "../planning-aid";
import { budgetOf, yearIn } from "./asking";
import { CostTable } from "./cost-table";
import { Headline } from "./headline";
import { MonthBars } from "./month-bars";
import { MonthList } from "./month-list";
import { Settings } from "./settings";
import { monthsOf } from "./year";
import { YearChoice } from "./year-choice";
import { ZoneTable } from "./zone-table";

export function BudgetPage({ words: [word] }: { words: string[] }) {
  const year = yearIn(word);
  const list = useMemo(() => budgetOf(String(year)), [year, copy.value?.site]);
  const known = useKnown(list);
  const document = site.value;
  const budget = known.items;
  const months = budget ? monthsOf(budget) : [];
  if (!document) return null;
  return (
    <div class="budget">
      <YearChoice year={year} />
      <NeedsSignal known={known} reload={() => void list.load()} />
      {budget && months.length > 0 ? (
        <>
          <div class="budget-slab">
            <Headline months={months} currency={budget.currency} />
            <MonthBars months={months} />
          </div>
          <MonthList document={document} months={months} currency={budget.currency} />
          <ZoneTable document={document} budget={budget} />
          <CostTable months={months} currency={budget.currency} />
        </>
      ) : null}
      <Settings document={document} year={year} empty={budget !== null && months.length === 0} />
      <PlanningAid />
    </div>
  );
}
