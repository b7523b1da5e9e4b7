/** A plain number: a count, a percentage, a rank. */

import { useId } from "preact/hooks";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { asNumber, readFigure } from "../words/numbers";
import { FieldFrame } from "./field-frame";
import { type FieldProps, missing, type Read, readAs, useTyped } from "./typed";
import { TypedInput } from "./typed-input";

interface NumberFieldProps extends FieldProps<number | null> {
  least?: number | undefined;
  most?: number | undefined;
  /** Decimals it may have. */
  places?: number | undefined;
  required?: boolean | undefined;
  /** What stands behind it, as `%`. */
  unit?: string | undefined;
}

export function NumberField(props: NumberFieldProps) {
  const { label, value, hint, disabled, unit, places = 0, onChange, onFault } = props;
  const id = useId();
  const typed = useTyped<number | null>({
    value,
    write: (given) => (given === null ? "" : figure(given, places)),
    read: (text) => readNumber(text, props),
    onChange,
    onFault,
  });
  const fault = typed.fault ?? props.fault;
  return (
    <FieldFrame id={id} label={label} hint={hint} fault={fault}>
      <TypedInput
        id={id}
        typed={typed}
        unit={unit}
        hint={hint}
        fault={fault}
        disabled={disabled}
        keys={places ? "decimal" : "numeric"}
      />
    </FieldFrame>
  );
}

/** What was typed as a number within its limits. A percent sign behind it does no harm. */
export function readNumber(text: string, limits: Omit<NumberFieldProps, keyof FieldProps<null>> & { label: string }) {
  const { label, required, least = -Infinity, most = Infinity, places = 0 } = limits;
  const plain = text.replace(/[%٪]/g, "").trim();
  if (!plain) return required ? missing(label) : { value: null };
  const found: Read<number> = readAs(label, () => asNumber(readFigure(plain)));
  if ("fault" in found) return found;
  const { value } = found;
  if (Math.abs(value * 10 ** places - Math.round(value * 10 ** places)) > 1e-9) {
    return { fault: t("{field} must be a whole number, but it is {given}.", { field: label, given: plain }) };
  }
  if (value >= least && value <= most) return { value };
  return {
    fault: t("{field} must be between {least} and {most}, but it is {given}.", {
      field: label,
      least,
      most,
      given: value,
    }),
  };
}
