/** One field of a record, with the control that suits what it holds. */

import { Choice } from "../controls/choice";
import { ClockField } from "../controls/clock-field";
import { DateField } from "../controls/date-field";
import { TextField } from "../controls/text-field";
import { t } from "../words/catalogue";
import { choiceWord, noChoice } from "./choice-words";
import { type ControlProps, shared } from "./control-props";
import { type Field, fieldOf, heldIn } from "./fields";
import type { Form } from "./form";
import { NumberControl } from "./number-control";
import { ReferenceField } from "./reference-field";

export function FieldControl({ form, field }: ControlProps) {
  const declared = fieldOf(form.table, field);
  if (!declared || !form.record) return null;
  const props = shared({ form, field });
  const value = heldIn(form.record, form.table, field);
  const text = typeof value === "string" ? value : null;
  if (declared.kind === "choice") return <ChoiceControl form={form} field={field} declared={declared} />;
  if (declared.kind === "ref") return <ReferenceField form={form} field={field} />;
  if (declared.kind === "whole" || declared.kind === "number") {
    return <NumberControl {...props} declared={declared} value={typeof value === "number" ? value : null} />;
  }
  if (declared.kind === "clock") {
    return <ClockField {...props} value={text} none={noTime(form.table, field)} sun={placed(form)} />;
  }
  if (declared.kind === "date" || declared.kind === "moment") {
    return <DateField {...props} value={text} timed={declared.kind === "moment"} />;
  }
  return <TextField {...props} value={text ?? ""} most={declared.most} lines={field === "notes" ? 4 : 1} />;
}

function placed(form: Form): boolean {
  const site = form.records.site;
  return site?.latitude_deg != null && site?.longitude_deg != null;
}

/** What no time at all means in a field; absent where there has to be one. */
function noTime(table: string, field: string): string | undefined {
  if (table === "windows" || table === "closures") return undefined;
  return field === "finish_by" ? t("No finish asked for") : t("As soon as a window opens");
}

function ChoiceControl({ form, field, declared }: ControlProps & { declared: Field }) {
  const { onChange, onFault: _, ...props } = shared({ form, field });
  const value = form.record ? heldIn(form.record, form.table, field) : null;
  const options = (declared.choices ?? []).map((choice) => ({
    value: choice,
    label: choiceWord(form.table, field, choice),
  }));
  const none = declared.default === undefined && !declared.required;
  const all = none ? [...options, { value: "", label: noChoice(form.table, field) }] : options;
  return (
    <Choice
      {...props}
      value={typeof value === "string" ? value : ""}
      options={all}
      onChange={(to) => onChange(to || null)}
    />
  );
}
