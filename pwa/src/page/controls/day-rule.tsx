/** On which days something happens: every day, days of the week, every so many days, odd or even or listed dates; in a season. */

import { t } from "../words/catalogue";
import {
  chosenDays,
  type DayKind,
  type DayRule,
  dayRuleWords,
  ofKind,
  partsOf,
  WEEKDAYS,
  type Weekday,
  weekdayName,
} from "../words/day-rules";
import { weekOrder } from "../words/week";
import { Choice } from "./choice";
import { DateField } from "./date-field";
import { DatesField } from "./dates-field";
import { FieldGroup } from "./field-frame";
import { NumberField } from "./number-field";
import { Season } from "./season";
import { Switch } from "./switch";

export interface DayRuleProps {
  label: string;
  value: DayRule;
  onChange: (value: DayRule) => void;
  /** Today on the site's wall, from which counted and listed days begin. */
  today: string;
  /** Programs may also run only when somebody asks. */
  asked?: boolean | undefined;
  fault?: string | null | undefined;
  onFault?: ((fault: string | null) => void) | undefined;
  disabled?: boolean | undefined;
}

export function DayRuleField(props: DayRuleProps) {
  const { label, value, onChange, today, asked = false, fault, disabled } = props;
  const kind = value.days ?? "every_day";
  return (
    <div class="day-rule">
      <Choice<DayKind>
        label={label}
        value={kind}
        options={kinds(asked)}
        hint={dayRuleWords(value)}
        fault={fault}
        disabled={disabled}
        onChange={(days) => onChange(ofKind(days, value, today))}
      />
      {kind === "weekdays" ? <Weekdays {...props} /> : null}
      {kind === "every_n" ? <EveryFew {...props} /> : null}
      {kind === "dates" ? (
        <DatesField
          label={t("Dates")}
          value={partsOf(value.dates)}
          from={today}
          disabled={disabled}
          onChange={(dates) => onChange({ ...value, dates: dates.join(",") || null })}
        />
      ) : null}
      {kind === "asked" ? null : <Season {...props} />}
    </div>
  );
}

function kinds(asked: boolean) {
  return [
    { value: "every_day" as const, label: t("Every day") },
    { value: "weekdays" as const, label: t("Days of the week") },
    { value: "every_n" as const, label: t("Every so many days") },
    { value: "odd" as const, label: t("Odd dates") },
    { value: "even" as const, label: t("Even dates") },
    { value: "dates" as const, label: t("Listed dates") },
    ...(asked ? [{ value: "asked" as const, label: t("Only when asked for") }] : []),
  ];
}

function Weekdays({ value, onChange, disabled }: DayRuleProps) {
  const chosen = chosenDays(value.weekdays);
  const put = (day: Weekday, on: boolean) => {
    const days = WEEKDAYS.filter((one) => (one === day ? on : chosen.includes(one)));
    onChange({ ...value, weekdays: days.join(",") || null });
  };
  const fault = chosen.length === 0 ? t("Choose at least one day of the week.") : null;
  return (
    <FieldGroup id="weekdays" label={t("Days of the week")} fault={fault}>
      <div class="weekdays">
        {weekOrder().map((day) => (
          <Switch
            key={day}
            label={weekdayName(day)}
            on={chosen.includes(day)}
            disabled={disabled}
            onChange={(on) => put(day, on)}
          />
        ))}
      </div>
    </FieldGroup>
  );
}

function EveryFew({ value, onChange, onFault, disabled }: DayRuleProps) {
  return (
    <div class="field-row">
      <NumberField
        label={t("Days from one to the next")}
        value={value.every_n_days}
        least={1}
        most={366}
        required
        disabled={disabled}
        onFault={onFault}
        onChange={(days) => onChange({ ...value, every_n_days: days })}
      />
      <DateField
        label={t("Counted from")}
        value={value.every_from}
        disabled={disabled}
        onChange={(date) => onChange({ ...value, every_from: date })}
      />
    </div>
  );
}
