/** A record's fields, section by section. */

import type { Table } from "./fields";
import type { Form } from "./form";
import { GroupControl } from "./group-control";
import { LAYOUTS } from "./layouts";

export function RecordBody({ form }: { form: Form }) {
  const sections = LAYOUTS[form.table as Table] ?? [];
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
