/** Reading one can, moving it or taking it away; then on to the next. */

import { useRef } from "preact/hooks";
import { putDraft } from "../../records/desk";
import { type Form, reportUnread } from "../../records/form";
import { t } from "../../words/catalogue";
import { placeWords } from "./can-words";
import { withoutCan, withReading } from "./drafting";
import { type Can, nextCan, nextUnread } from "./grid";
import type { Measure } from "./measure";
import { ReadingField } from "./reading-field";

interface CanReadingProps {
  form: Form;
  cans: readonly Can[];
  measure: Measure;
  can: Can;
  moving: boolean;
  onMove: (moving: boolean) => void;
  onGo: (can: string | null) => void;
}

export function CanReading({ form, can, cans, measure, moving, onMove, onGo }: CanReadingProps) {
  const came = useRef<string | null>(null);
  const next = nextUnread(cans, can.id) ?? nextCan(cans, can.id);
  const goOn = () => {
    came.current = next?.id ?? null;
    onGo(next?.id ?? null);
  };
  return (
    <div class="audit-reading">
      <ReadingField
        key={can.id}
        label={placeWords(can)}
        value={can.catch}
        measure={measure}
        ready={came.current === can.id}
        next={next ? t("Next: {can}", { can: placeWords(next) }) : undefined}
        onChange={(read) => putDraft(form.name, withReading(form.draft, can.id, read))}
        onFault={(words) => reportUnread(form, `cans/${can.id}`, words)}
        onNext={goOn}
      />
      <div class="audit-acts">
        <button type="button" class="button" aria-pressed={moving} onClick={() => onMove(!moving)}>
          {moving ? t("Leave it where it is") : t("Move this can")}
        </button>
        <button
          type="button"
          class="button button-away"
          onClick={() => {
            putDraft(form.name, withoutCan(form.draft, can.id));
            onGo(null);
          }}
        >
          {t("Take this can away")}
        </button>
      </div>
    </div>
  );
}
