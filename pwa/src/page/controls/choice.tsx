/** One out of a few: each a button with its words, all of them in sight. */

import { useId } from "preact/hooks";
import { FieldGroup } from "./field-frame";

export interface Option<Value extends string> {
  value: Value;
  label: string;
  /** The label's own language, where it is not the reader's. */
  lang?: string | undefined;
  /** A word more about it. */
  about?: string | undefined;
}

export interface ChoiceProps<Value extends string> {
  label: string;
  value: Value;
  options: readonly Option<Value>[];
  onChange: (value: Value) => void;
  hint?: string | undefined;
  fault?: string | null | undefined;
  disabled?: boolean | undefined;
}

export function Choice<Value extends string>(props: ChoiceProps<Value>) {
  const { label, value, options, onChange, hint, fault, disabled } = props;
  const id = useId();
  return (
    <FieldGroup id={id} label={label} hint={hint} fault={fault}>
      <div class="options">
        {options.map((option) => (
          <label key={option.value} class="option">
            <input
              type="radio"
              name={id}
              value={option.value}
              checked={value === option.value}
              disabled={disabled}
              onChange={() => onChange(option.value)}
            />
            <span lang={option.lang}>
              <bdi>{option.label}</bdi>
              {option.about ? <span class="option-about">{option.about}</span> : null}
            </span>
          </label>
        ))}
      </div>
    </FieldGroup>
  );
}
