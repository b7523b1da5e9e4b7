/** What belongs to a program besides its own fields: its turns and its next dates. */

import type { Form } from "./form";
import { ProgramDates } from "./program-dates";
import { ProgramTurns } from "./program-turns";

export function ProgramParts({ form }: { form: Form }) {
  return (
    <>
      <ProgramTurns form={form} />
      {form.was ? <ProgramDates program={form.was.id} changed={form.changes.length > 0} /> : null}
    </>
  );
}
