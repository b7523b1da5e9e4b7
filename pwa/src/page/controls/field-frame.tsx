/** What stands around every field: its name above, a hint and what is wrong with it below. */

import type { ComponentChildren } from "preact";
import "../look/controls.css";

interface FieldFrameProps {
  id: string;
  label: string;
  hint?: string | undefined;
  fault?: string | null | undefined;
  children: ComponentChildren;
}

export function FieldFrame({ id, label, hint, fault, children }: FieldFrameProps) {
  return (
    <div class="field">
      <label class="field-label" for={id}>
        {label}
      </label>
      {children}
      <FieldNotes id={id} hint={hint} fault={fault} />
    </div>
  );
}

/** The same for several inputs with one name. */
export function FieldGroup({ id, label, hint, fault, children }: FieldFrameProps) {
  return (
    <fieldset class="field" aria-describedby={describedBy(id, hint, fault)}>
      <legend class="field-label">{label}</legend>
      {children}
      <FieldNotes id={id} hint={hint} fault={fault} />
    </fieldset>
  );
}

function FieldNotes({ id, hint, fault }: Pick<FieldFrameProps, "id" | "hint" | "fault">) {
  return (
    <>
      {hint ? (
        <p class="field-hint" id={`${id}-hint`}>
          {hint}
        </p>
      ) : null}
      {/* The paragraph is there before there is anything in it, so that screen readers hear what comes. */}
      <p class="field-fault" id={`${id}-fault`} role="status">
        {fault ?? ""}
      </p>
    </>
  );
}

/** The ids of what a field is described by. */
export function describedBy(
  id: string,
  hint: string | undefined,
  fault: string | null | undefined,
): string | undefined {
  const found = [hint ? `${id}-hint` : "", fault ? `${id}-fault` : ""].filter(Boolean).join(" ");
  return found || undefined;
}
