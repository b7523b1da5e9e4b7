/** One out of many, where buttons would fill the screen: stations, programs, hydrozones. */

import { useId } from "preact/hooks";
import type { ChoiceProps } from "./choice";
import { describedBy, FieldFrame } from "./field-frame";

export function PickList<Value extends string>(props: ChoiceProps<Value>) {
  const { label, value, options, onChange, hint, fault, disabled } = props;
  const id = useId();
  return (
    <FieldFrame id={id} label={label} hint={hint} fault={fault}>
      <select
        id={id}
        class="field-input"
        value={value}
        disabled={disabled}
        aria-invalid={fault ? true : undefined}
        aria-describedby={describedBy(id, hint, fault)}
        onChange={(event) => onChange(event.currentTarget.value as Value)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value} lang={option.lang}>
            {option.label}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}
