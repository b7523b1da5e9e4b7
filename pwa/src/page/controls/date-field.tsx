/** A day of the calendar, picked with what the device offers for it, and read back in the reader's own words. */

import { useId } from "preact/hooks";
import { shortDay } from "../words/moments";
import { describedBy, FieldFrame } from "./field-frame";
import type { FieldProps } from "./typed";

interface DateFieldProps extends Omit<FieldProps<string | null>, "onFault"> {
  least?: string | undefined;
  most?: string | undefined;
  /** With a time of day: `YYYY-MM-DDTHH:MM`. */
  timed?: boolean | undefined;
}

export function DateField({ label, value, onChange, hint, fault, disabled, least, most, timed }: DateFieldProps) {
  const id = useId();
  const said = hint ?? (value && !timed ? shortDay(value) : undefined);
  return (
    <FieldFrame id={id} label={label} hint={said} fault={fault}>
      <input
        id={id}
        class="field-input"
        type={timed ? "datetime-local" : "date"}
        value={value ?? ""}
        min={least}
        max={most}
        disabled={disabled}
        aria-invalid={fault ? true : undefined}
        aria-describedby={describedBy(id, said, fault)}
        onChange={(event) => onChange(event.currentTarget.value.slice(0, 16) || null)}
      />
    </FieldFrame>
  );
}
