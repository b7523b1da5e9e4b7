/** Several dates, each with a way to take it away. */

import { useId } from "preact/hooks";
import { t } from "../words/catalogue";
import { longDay } from "../words/moments";
import { DateField } from "./date-field";
import { FieldGroup } from "./field-frame";
import type { FieldProps } from "./typed";

interface DatesFieldProps extends Omit<FieldProps<string[]>, "onFault"> {
  /** The day that a new date begins with. */
  from: string;
}

export function DatesField({ label, value, onChange, hint, fault, disabled, from }: DatesFieldProps) {
  const id = useId();
  const put = (dates: string[]) => onChange([...new Set(dates)].sort());
  return (
    <FieldGroup id={id} label={label} hint={hint} fault={fault}>
      <ul class="dates">
        {value.map((date) => (
          <li key={date} class="dates-one">
            <span>{longDay(date)}</span>
            <button
              type="button"
              class="button"
              disabled={disabled}
              aria-label={t("Take {date} away", { date: longDay(date) })}
              onClick={() => put(value.filter((other) => other !== date))}
            >
              {t("Take away")}
            </button>
          </li>
        ))}
      </ul>
      <DateField
        label={t("One more date")}
        value={null}
        least={from}
        disabled={disabled}
        onChange={(date) => put(date ? [...value, date] : value)}
      />
    </FieldGroup>
  );
}
