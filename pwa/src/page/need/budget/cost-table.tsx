/** What the year's water has cost so far, price step by price step. */

import { t } from "../../words/catalogue";
import { money } from "../../words/money";
import { volume } from "../../words/units";
import { costOf, type Month, stepsOf } from "./year";

export function CostTable({ months, currency }: { months: readonly Month[]; currency: string | null }) {
  const cost = costOf(months);
  const steps = stepsOf(months);
  if (!cost || steps.length === 0) return null;
  const standing = cost.used - steps.reduce((sum, step) => sum + step.amount, 0);
  return (
    <details class="as-table">
      <summary>{t("What it cost so far, by price step")}</summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reached by the keyboard */}
      <section class="table-scroll" aria-label={t("What it cost so far, by price step")} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{t("A cubic metre at")}</th>
              <th scope="col" class="budget-figure">
                {t("Used")}
              </th>
              <th scope="col" class="budget-figure">
                {t("Cost")}
              </th>
            </tr>
          </thead>
          <tbody>
            {steps.map((step) => (
              <Line
                key={step.price}
                name={money(step.price, currency)}
                used={volume(step.volume_l)}
                cost={money(step.amount, currency)}
              />
            ))}
            {standing > 0.005 ? <Line name={t("Standing charges")} used="" cost={money(standing, currency)} /> : null}
            <Line name={t("Together")} used="" cost={money(cost.used, currency)} />
          </tbody>
        </table>
      </section>
    </details>
  );
}

function Line({ name, used, cost }: { name: string; used: string; cost: string }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <td class="budget-figure">{used}</td>
      <td class="budget-figure">{cost}</td>
    </tr>
  );
}
