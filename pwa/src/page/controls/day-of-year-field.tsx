/** A day of every year: `MM-DD`. */

import { useId } from "preact/hooks";
import { t } from "../words/catalogue";
import { dayOfYear } from "../words/day-rules";
import { monthName } from "../words/moments";
import { FieldGroup } from "./field-frame";
import type { FieldProps } from "./typed";

export function DayOfYearField({ label, value, onChange, hint, fault, disabled }: Omit<FieldProps<string>, "onFault">) {
  const id = useId();
  const [month = "01", day = "01"] = value.split("-");
  const put = (toMonth: string, toDay: string) => {
    onChange(`${toMonth}-${two(Math.min(Number(toDay), daysIn(toMonth)))}`);
  };
  return (
    <FieldGroup id={id} label={label} hint={hint ?? dayOfYear(value)} fault={fault}>
      <div class="field-row">
        <select
          class="field-input"
          aria-label={t("{field}, day", { field: label })}
          value={day}
          disabled={disabled}
          onChange={(event) => put(month, event.currentTarget.value)}
        >
          {numbers(daysIn(month)).map((one) => (
            <option key={one} value={one}>
              {Number(one)}
            </option>
          ))}
        </select>
        <select
          class="field-input"
          aria-label={t("{field}, month", { field: label })}
          value={month}
          disabled={disabled}
          onChange={(event) => put(event.currentTarget.value, day)}
        >
          {numbers(12).map((one) => (
            <option key={one} value={one}>
              {monthName(Number(one))}
            </option>
          ))}
        </select>
      </div>
    </FieldGroup>
  );
}

/** 29 February is a day of the year. */
function daysIn(month: string): number {
  return new Date(Date.UTC(2000, Number(month), 0)).getUTCDate();
}

function numbers(most: number): string[] {
  return Array.from({ length: most }, (_, index) => two(index + 1));
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
