/** A field that points to another record: what it points to, a way there, and a search for another. */

import { go } from "../way/way";
import { t } from "../words/catalogue";
import { Chooser } from "./chooser";
import type { ChooserOption } from "./choosing";
import { shared } from "./control-props";
import { fieldOf } from "./fields";
import type { Form } from "./form";
import { recordLine, recordTitle } from "./record-words";
import { textOf } from "./records";
import { fedBy } from "./supply-tree";

interface ReferenceFieldProps {
  form: Form;
  field: string;
}

const NONE = "";

export function ReferenceField({ form, field }: ReferenceFieldProps) {
  const { onChange, onFault: _, ...props } = shared({ form, field });
  const declared = fieldOf(form.table, field);
  const table = declared?.table ?? "";
  const id = textOf(form.record, field);
  const chosen = id
    ? recordTitle(form.records.get(table, id), form.records)
    : declared?.required
      ? ""
      : noneWord(field);
  return (
    <div class="reference">
      <Chooser
        {...props}
        chosen={chosen}
        options={options(form, field, table, declared?.required === true)}
        onChoose={(value) => onChange(value || null)}
      />
      {id && form.records.get(table, id) ? (
        <button type="button" class="reference-way" onClick={() => go("site", table, id)}>
          {t("Go to {name}", { name: chosen })}
        </button>
      ) : null}
    </div>
  );
}

function options(form: Form, field: string, table: string, required: boolean): ChooserOption[] {
  const barred = field === "fed_by" && form.record ? fedBy(form.records, form.record.id) : new Set<string>();
  const all = form.records
    .of(table)
    .filter((record) => !barred.has(record.id))
    .map((record) => ({
      value: record.id,
      label: recordTitle(record, form.records),
      about: recordLine(record, form.records),
    }));
  return required ? all : [{ value: NONE, label: noneWord(field) }, ...all];
}

/** What it means that a field points nowhere. */
function noneWord(field: string): string {
  if (field === "fed_by") return t("Nothing: this is a source");
  if (field === "controller") return t("No controller");
  return field === "hydrozone" ? t("No hydrozone") : t("None");
}
