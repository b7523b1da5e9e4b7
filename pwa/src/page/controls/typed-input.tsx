/** The one-line input that all typed fields share: its unit beside it, its faults told to screen readers. */

import { describedBy } from "./field-frame";
import type { Typed } from "./typed";

interface TypedInputProps {
  id: string;
  typed: Typed;
  unit?: string | undefined;
  hint?: string | undefined;
  fault: string | null | undefined;
  disabled?: boolean | undefined;
  /** Which keyboard a phone shows. */
  keys?: "decimal" | "numeric" | "text" | undefined;
  placeholder?: string | undefined;
}

export function TypedInput({ id, typed, unit, hint, fault, disabled, keys = "decimal", placeholder }: TypedInputProps) {
  return (
    <span class="field-box">
      <input
        id={id}
        class="field-input"
        type="text"
        dir="auto"
        inputMode={keys}
        autocomplete="off"
        value={typed.text}
        placeholder={placeholder}
        disabled={disabled}
        aria-invalid={fault ? true : undefined}
        aria-describedby={[unit ? `${id}-unit` : "", describedBy(id, hint, fault) ?? ""].join(" ").trim() || undefined}
        onInput={typed.onInput}
        onBlur={typed.onBlur}
      />
      {unit ? (
        <span class="field-unit" id={`${id}-unit`}>
          {unit}
        </span>
      ) : null}
    </span>
  );
}
