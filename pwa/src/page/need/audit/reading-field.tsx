/** One can's reading: typed or stepped by thumb, then on to the next can. */

import { useEffect, useId, useRef } from "preact/hooks";
import { FieldGroup } from "../../controls/field-frame";
import { useRepeating } from "../../controls/repeating";
import { stepped } from "../../controls/steps";
import { type Read, readAs, useTyped } from "../../controls/typed";
import { fieldOf } from "../../records/fields";
import { t } from "../../words/catalogue";
import type { Measure } from "./measure";

interface ReadingFieldProps {
  label: string;
  value: number | null;
  measure: Measure;
  /** The reader came here by going on: the field is ready to be typed in. */
  ready: boolean;
  /** What the button to the next can says; absent after the last. */
  next: string | undefined;
  onChange: (value: number | null) => void;
  onFault: (fault: string | null) => void;
  onNext: () => void;
}

const MOST = fieldOf("cans", "catch")?.most ?? 0;

export function ReadingField({ label, value, measure, ready, next, onChange, onFault, onNext }: ReadingFieldProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const read = (text: string) => readCatch(text, label, measure);
  const write = (base: number | null) => (base === null ? "" : measure.write(base));
  const typed = useTyped<number | null>({ value, write, read, onChange, onFault });
  useEffect(() => {
    if (ready) input.current?.focus();
  }, []);
  const goOn = (event: Event) => {
    event.preventDefault();
    if (typed.fault === null) onNext();
  };
  return (
    <form class="reading" onSubmit={goOn}>
      <FieldGroup id={id} label={label} fault={typed.fault}>
        <div class="stepper-value">
          <input
            ref={input}
            id={id}
            class="stepper-now"
            type="text"
            inputMode="decimal"
            enterKeyHint="next"
            autocomplete="off"
            aria-label={label}
            aria-invalid={typed.fault ? true : undefined}
            aria-describedby={typed.fault ? `${id}-fault` : undefined}
            style={{ "--letters": String(Math.max(2, typed.text.length)) }}
            value={typed.text}
            onInput={typed.onInput}
            onBlur={typed.onBlur}
          />
          <span class="stepper-unit">{measure.unit}</span>
        </div>
        <div class="stepper-steps">
          {measure.steps.map((by) => (
            <Step
              key={by}
              by={by}
              measure={measure}
              onStep={() => onChange(rounded(stepped(value ?? 0, by, 0, MOST)))}
            />
          ))}
        </div>
      </FieldGroup>
      {next ? (
        <button type="submit" class="button button-brass">
          {next}
        </button>
      ) : null}
    </form>
  );
}

function Step({ by, measure, onStep }: { by: number; measure: Measure; onStep: () => void }) {
  const held = useRepeating(onStep);
  const { unit } = measure;
  const size = measure.write(Math.abs(by));
  return (
    <button type="button" class="stepper-step" {...held}>
      <bdi dir="ltr" aria-hidden="true">
        {by < 0 ? "−" : "+"}
        {size}
      </bdi>
      <span class="unseen">
        {by < 0 ? t("{size} {unit} less", { size, unit }) : t("{size} {unit} more", { size, unit })}
      </span>
    </button>
  );
}

/** Steps in binary fractions leave crumbs behind. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

function readCatch(text: string, field: string, measure: Measure): Read<number | null> {
  if (!text.trim()) return { value: null };
  const found = readAs(field, () => measure.read(text));
  if ("fault" in found || (found.value >= 0 && found.value <= MOST)) return found;
  return {
    fault: t("{field} must be between {least} and {most}, but it is {given}.", {
      field,
      least: measure.write(0),
      most: measure.write(MOST),
      given: measure.write(found.value),
    }),
  };
}
