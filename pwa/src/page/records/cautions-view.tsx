/** The cautions a record's page shows. */

import { cautionsFor } from "./cautions";
import type { Form } from "./form";

export function Cautions({ form }: { form: Form }) {
  const lines = form.record ? cautionsFor(form.record, form.records) : [];
  if (!lines.length) return null;
  return (
    <div class="cautions" role="note">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </div>
  );
}
