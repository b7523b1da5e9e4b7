/** A number of the document: an amount in the reader's unit, a length of time, or a plain figure. */

import { DurationField } from "../controls/duration-field";
import { NumberField } from "../controls/number-field";
import { QuantityField } from "../controls/quantity-field";
import type { FieldProps } from "../controls/typed";
import { BASE_SUFFIXES } from "../words/units";
import type { Field } from "./fields";

interface NumberControlProps extends FieldProps<number | null> {
  declared: Field;
}

/** Latitude and longitude to about a tenth of a metre. */
const DEGREE_PLACES = 6;

export function NumberControl({ declared, ...props }: NumberControlProps) {
  const { unit = "", least, most, required, default: usual } = declared;
  const limits = { least, most, required: required ?? usual !== undefined };
  const quantity = BASE_SUFFIXES[unit];
  if (quantity) return <QuantityField {...props} {...limits} quantity={quantity} whole={declared.kind === "whole"} />;
  if (unit === "s") return <DurationField {...props} {...limits} />;
  const places = unit === "deg" ? DEGREE_PLACES : declared.kind === "whole" ? 0 : 1;
  return <NumberField {...props} {...limits} places={places} unit={SIGNS[unit]} />;
}

const SIGNS: Readonly<Record<string, string>> = { pct: "%", deg: "°" };
