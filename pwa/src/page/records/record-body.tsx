/** A record's fields, section by section. */

import type { Table } from "./fields";
import type { Form } from "./form";
import { GroupControl } from "./group-control";
import { LAYOUTS } from "./layouts";

/** A main carries its source's water and waits for none; what it has all the same can be seen and put right. */
function concerns({ record, table }: Form, group: string): boolean {
  if (table !== "supplies" || !record?.fed_by) return true;
  return group === "lead_s" ? record.lead_s != null : group !== "water";
}

interface RecordBodyProps {
  form: Form;
  /** Only these of its sections, by their place. */
  from?: number;
  until?: number | undefined;
}

export function RecordBody({ form, from = 0, until }: RecordBodyProps) {
  const sections = (LAYOUTS[form.table as Table] ?? []).slice(from, until);
  return (
    <div class="record-sections">
      {sections.map(({ title, groups }) => (
        <section key={groups[0]} class="record-section" aria-labelledby={`section-${groups[0]}`}>
          <h2 id={`section-${groups[0]}`}>{title()}</h2>
          <div class="record-fields">
            {groups
              .filter((group) => concerns(form, group))
              .map((group) => (
                <GroupControl key={group} form={form} field={group} />
              ))}
          </div>
        </section>
      ))}
    </div>
  );
}
