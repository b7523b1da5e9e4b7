/** An amount, typed in one's own units or with a unit of any kind behind it; kept in the document's base unit. */

import { useId, useRef } from "preact/hooks";
import { t } from "../words/catalogue";
import { readAmount } from "../words/parsing";
import { amount, bareFigure, shownUnit, symbol, type Unit } from "../words/units";
import { FieldFrame } from "./field-frame";
import { type FieldProps, missing, type Read, readAs, useTyped } from "./typed";
import { TypedInput } from "./typed-input";

interface QuantityFieldProps extends FieldProps<number | null> {
  quantity: string;
  /** Limits in the base unit. */
  least?: number | undefined;
  most?: number | undefined;
  required?: boolean | undefined;
  /** The document keeps whole numbers here. */
  whole?: boolean | undefined;
}

export function QuantityField(props: QuantityFieldProps) {
  const { label, value, quantity, hint, disabled, onChange, onFault } = props;
  const id = useId();
  const unit = useSteadyUnit(quantity, value);
  const typed = useTyped<number | null>({
    value,
    write: (base) => (base === null ? "" : bareFigure(unit.now(), base)),
    read: (text) => readField(text, props, unit.now()),
    onChange,
    onFault,
  });
  const fault = typed.fault ?? props.fault;
  const input = { ...typed, onInput: unit.hold(typed.onInput), onBlur: unit.release(typed.onBlur) };
  return (
    <FieldFrame id={id} label={label} hint={hint} fault={fault}>
      <TypedInput id={id} typed={input} unit={symbol(unit.now())} hint={hint} fault={fault} disabled={disabled} />
    </FieldFrame>
  );
}

/** Units grow with the amount; while somebody types, a bare figure keeps meaning the unit that stands beside it. */
function useSteadyUnit(quantity: string, value: number | null) {
  const held = useRef<Unit | null>(null);
  const now = () => held.current ?? shownUnit(quantity, value ?? 0);
  return {
    now,
    hold:
      <Given,>(act: (given: Given) => void) =>
      (given: Given) => {
        held.current = now();
        act(given);
      },
    release: (act: () => void) => () => {
      held.current = null;
      act();
    },
  };
}

type Limits = Pick<QuantityFieldProps, "label" | "quantity" | "least" | "most" | "required" | "whole">;

function readField(text: string, limits: Limits, unit: Unit): Read<number | null> {
  const { label, quantity, required, whole } = limits;
  if (!text.trim()) return required ? missing(label) : { value: null };
  const found = readAs(label, () => readAmount(quantity, text, unit));
  if ("fault" in found) return found;
  const base = whole ? Math.round(found.value) : found.value;
  return outside(base, limits) ?? { value: base };
}

function outside(base: number, { label, quantity, least, most }: Limits): { fault: string } | null {
  if ((least ?? -Infinity) <= base && base <= (most ?? Infinity)) return null;
  const given = amount(quantity, base);
  if (most === undefined) {
    return {
      fault: t("{field} must be at least {least}, but it is {given}.", {
        field: label,
        least: amount(quantity, least ?? 0),
        given,
      }),
    };
  }
  const limits = { least: amount(quantity, least ?? 0), most: amount(quantity, most) };
  return {
    fault: t("{field} must be between {least} and {most}, but it is {given}.", { field: label, ...limits, given }),
  };
}
