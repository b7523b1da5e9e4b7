/** A value with four large buttons beneath it, and the value itself to type in; the old value stands struck beside it. */

import { useId } from "preact/hooks";
import { t } from "../words/catalogue";
import { FieldGroup } from "./field-frame";
import { useRepeating } from "./repeating";
import { signed, stepped } from "./steps";
import { type FieldProps, type Read, useTyped } from "./typed";

interface StepperProps extends FieldProps<number> {
  /** The value in force, struck beside a new one. */
  was: number;
  least: number;
  most: number;
  /** What one step is, in the value's own measure: 60 where seconds are stepped by minutes. */
  size?: number | undefined;
  steps?: readonly number[] | undefined;
  /** The value as it stands in the large type, and what stands behind it, as `min`. */
  write: (value: number) => string;
  unit?: string | undefined;
  read: (text: string) => Read<number>;
  /** What a step is called: `1 min more`. */
  stepName: (by: number) => string;
}

const STEPS = [-5, -1, 1, 5];

export function Stepper(props: StepperProps) {
  const { label, value, was, hint, write, unit, read, onChange, onFault, size = 1, steps = STEPS } = props;
  const id = useId();
  const typed = useTyped<number>({ value, write, read, onChange, onFault });
  const fault = typed.fault ?? props.fault;
  return (
    <FieldGroup id={id} label={label} hint={hint} fault={fault}>
      <div class="stepper-value">
        {was === value ? null : (
          <s class="stepper-was">
            <span class="unseen">{t("before")} </span>
            {write(was)}
          </s>
        )}
        <input
          id={id}
          class="stepper-now"
          type="text"
          inputMode="decimal"
          autocomplete="off"
          aria-label={label}
          aria-invalid={fault ? true : undefined}
          aria-describedby={fault ? `${id}-fault` : undefined}
          style={{ "--letters": String(Math.max(2, typed.text.length)) }}
          disabled={props.disabled}
          value={typed.text}
          onInput={typed.onInput}
          onBlur={typed.onBlur}
          onKeyDown={(event) => stepByKey(event, (by) => onChange(stepped(value, by * size, props.least, props.most)))}
        />
        {unit ? <span class="stepper-unit">{unit}</span> : null}
      </div>
      <div class="stepper-steps">
        {steps.map((by) => (
          <Step
            key={by}
            by={by}
            name={props.stepName(by)}
            off={props.disabled === true || stepped(value, by * size, props.least, props.most) === value}
            onStep={() => onChange(stepped(value, by * size, props.least, props.most))}
          />
        ))}
      </div>
    </FieldGroup>
  );
}

function Step({ by, name, off, onStep }: { by: number; name: string; off: boolean; onStep: () => void }) {
  const held = useRepeating(onStep);
  return (
    <button type="button" class="stepper-step" disabled={off} {...held}>
      <bdi dir="ltr" aria-hidden="true">
        {signed(by)}
      </bdi>
      <span class="unseen">{name}</span>
    </button>
  );
}

function stepByKey(event: KeyboardEvent, step: (by: number) => void): void {
  const by = { ArrowUp: 1, ArrowDown: -1, PageUp: 5, PageDown: -5 }[event.key];
  if (by === undefined) return;
  event.preventDefault();
  step(by);
}
