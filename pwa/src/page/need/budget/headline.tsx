/** The year in one line: how much of the allowance is used, and what it has cost. */

import { t } from "../../words/catalogue";
import { figure } from "../../words/figures";
import { money } from "../../words/money";
import { volume } from "../../words/units";
import { costOf, type Month, total } from "./year";

export function Headline({ months, currency }: { months: readonly Month[]; currency: string | null }) {
  const { allowed_l, planned_l, used_l } = total(months);
  const cost = costOf(months);
  return (
    <>
      <p class="budget-share">
        {allowed_l > 0 ? t("{figure} %", { figure: figure((100 * used_l) / allowed_l, 0) }) : volume(used_l)}
      </p>
      <p class="budget-of">
        {allowed_l > 0 ? t("used of the year’s allowance") : t("used this year; no allowance is stated")}
      </p>
      <dl class="budget-figures">
        {allowed_l > 0 ? <Figure name={t("Allowed")} value={volume(allowed_l)} /> : null}
        <Figure name={t("Planned")} value={volume(planned_l)} />
        <Figure name={t("Used")} value={volume(used_l)} />
        {cost ? <Figure name={t("Cost so far")} value={money(cost.used, currency)} /> : null}
        {cost ? <Figure name={t("The plan would cost")} value={money(cost.planned, currency)} /> : null}
      </dl>
    </>
  );
}

function Figure({ name, value }: { name: string; value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}
