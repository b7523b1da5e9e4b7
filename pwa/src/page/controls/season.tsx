/** The part of the year in which a day rule holds. */

import { t } from "../words/catalogue";
import { DayOfYearField } from "./day-of-year-field";
import type { DayRuleProps } from "./day-rule";
import { Switch } from "./switch";

export function Season({ value, onChange, disabled }: DayRuleProps) {
  const on = value.season_from !== null && value.season_to !== null;
  const put = (from: string | null, to: string | null) => onChange({ ...value, season_from: from, season_to: to });
  return (
    <>
      <Switch
        label={t("Only in a season")}
        on={on}
        disabled={disabled}
        onChange={(now) => (now ? put("04-01", "10-31") : put(null, null))}
      />
      {on ? (
        <div class="field-row">
          <DayOfYearField
            label={t("First day")}
            value={value.season_from ?? "04-01"}
            disabled={disabled}
            onChange={(day) => put(day, value.season_to)}
          />
          <DayOfYearField
            label={t("Last day")}
            value={value.season_to ?? "10-31"}
            disabled={disabled}
            onChange={(day) => put(value.season_from, day)}
          />
        </div>
      ) : null}
    </>
  );
}
