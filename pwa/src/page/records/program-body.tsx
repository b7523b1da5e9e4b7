/** A program by hand: when it waters and in which nights, whom it waters, and how. Two columns where there is room. */

import type { Form } from "./form";
import { ProgramDates } from "./program-dates";
import { ProgramTurns } from "./program-turns";
import { RecordBody } from "./record-body";

/** Name and letter, then when; how, limits and notes come after the turns. */
const BEFORE_TURNS = 2;

export function ProgramBody({ form }: { form: Form }) {
  return (
    <div class="program">
      <div class="program-when">
        <RecordBody form={form} until={BEFORE_TURNS} />
      </div>
      <div class="program-turns">
        <ProgramTurns form={form} />
        {form.was ? <ProgramDates program={form.was.id} changed={form.changes.length > 0} /> : null}
      </div>
      <div class="program-how">
        <RecordBody form={form} from={BEFORE_TURNS} />
      </div>
    </div>
  );
}
