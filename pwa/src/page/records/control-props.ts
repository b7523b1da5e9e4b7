/** What every control of a form is given: its words, whether it may be changed, and what is wrong with it. */

import { faultWords } from "./fault-words";
import { fieldHelp } from "./field-helps";
import { fieldLabel } from "./field-labels";
import { type Form, isShown, reportUnread, setFields } from "./form";

export interface ControlProps {
  form: Form;
  field: string;
}

export function shared({ form, field }: ControlProps) {
  return {
    label: fieldLabel(form.table, field),
    hint: fieldHelp(form.table, field),
    fault: faultAt(form, [field]),
    disabled: !mayChange(form, field),
    onFault: (words: string | null) => reportUnread(form, field, words),
    onChange: (value: unknown) => setFields(form, { [field]: value }),
  };
}

/** What is wrong at one of these fields of the form's record, in words; null where there is nothing to show. */
export function faultAt(form: Form, fields: readonly (string | null)[]): string | null {
  const { table, record } = form;
  const fault = form.faults.find(
    (one) => one.table === table && one.record === record?.id && fields.includes(one.field),
  );
  return fault && isShown(form, fault) ? faultWords(fault, form.records) : null;
}

/** Whoever belongs to the crew may write notes on what is there. */
export function mayChange(form: Form, field: string): boolean {
  return form.mayEdit || (field === "notes" && form.mayNote && form.was !== undefined);
}
