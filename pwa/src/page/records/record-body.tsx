/** A record's fields, section by section. */

import type { Table } from "./fields";
import type { Form } from "./form";
import { GroupControl } from "./group-control";
import { LAYOUTS } from "./layouts";

interface RecordBodyProps {
  form: Form;
  /** Only these of its sections, by their place. */
  from?: number;
  until?: number | undefined;
}

export function RecordBody({ form, from = 0, until }: RecordBodyProps) {
  const sections = (LAYOUTS[form.table as Table] ?? []).slice(from, until);
  return (
    <>
      {sections.map(({ title, groups }) => (
        <section key={groups[0]} class="record-section" aria-labelledby={`section-${groups[0]}`}>
          <h2 id={`section-${groups[0]}`}>{title()}</h2>
          <div class="record-fields">
            {groups.map((group) => (
              <GroupControl key={group} form={form} field={group} />
            ))}
          </div>
        </section>
      ))}
    </>
  );
}
