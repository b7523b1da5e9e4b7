/** A length of time, typed as `48`, `1 h 20` or `0:48`; kept in whole seconds. */

import { useId } from "preact/hooks";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { readDuration } from "../words/parsing";
import { FieldFrame } from "./field-frame";
import { type FieldProps, missing, type Read, readAs, useTyped } from "./typed";
import { TypedInput } from "./typed-input";

interface DurationFieldProps extends FieldProps<number | null> {
  /** Limits in seconds. */
  least?: number | undefined;
  most?: number | undefined;
  required?: boolean | undefined;
}

export function DurationField(props: DurationFieldProps) {
  const { label, value, hint, disabled, onChange, onFault } = props;
  const id = useId();
  const typed = useTyped<number | null>({
    value,
    write: (seconds) => (seconds === null ? "" : duration(seconds)),
    read: (text) => readLength(text, props),
    onChange,
    onFault,
  });
  const fault = typed.fault ?? props.fault;
  return (
    <FieldFrame id={id} label={label} hint={hint} fault={fault}>
      <TypedInput id={id} typed={typed} hint={hint} fault={fault} disabled={disabled} keys="text" />
    </FieldFrame>
  );
}

interface Limits {
  label: string;
  least?: number | undefined;
  most?: number | undefined;
  required?: boolean | undefined;
}

/** What was typed in seconds, within its limits. A bare number is in minutes. */
export function readLength(text: string, { label, least = 0, most, required }: Limits): Read<number | null> {
  if (!text.trim()) return required ? missing(label) : { value: null };
  const found = readAs(label, () => readDuration(text));
  if ("fault" in found || (found.value >= least && found.value <= (most ?? Infinity))) return found;
  const given = { field: label, least: duration(least), given: duration(found.value) };
  return {
    fault:
      most === undefined
        ? t("{field} must be at least {least}, but it is {given}.", given)
        : t("{field} must be between {least} and {most}, but it is {given}.", { ...given, most: duration(most) }),
  };
}
