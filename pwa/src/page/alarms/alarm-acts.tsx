/** What one can do about an alarm: say that one has seen it, what it was, or that it is over. */

import { useState } from "preact/hooks";
import { Choice } from "../controls/choice";
import { TextField } from "../controls/text-field";
import { mayEdit, mayNote } from "../store/queries";
import { t } from "../words/catalogue";
import { type Alarm, EXPLAINED, type Explained } from "./shapes";
import { isEndedHere, isSeenByMe } from "./states";
import { useActing } from "./use-acting";
import { explainedWords } from "./words";

const LONGEST = 1900;

export function AlarmActs({ alarm }: { alarm: Alarm }) {
  const [open, setOpen] = useState(false);
  const acting = useActing();
  if (!mayNote.value) return null;
  const over = alarm.ended !== null || isEndedHere(alarm);
  return (
    <section class="alarm-doing" aria-label={t("What you can do")}>
      <div class="more-ways">
        {isSeenByMe(alarm) ? null : (
          <button
            type="button"
            class="button button-strong"
            disabled={acting.busy}
            onClick={() => void acting.run(alarm.id, { kind: "seen" })}
          >
            {t("I have seen it")}
          </button>
        )}
        <button type="button" class="button" aria-expanded={open} onClick={() => setOpen(!open)}>
          {t("Say what it was")}
        </button>
        {mayEdit.value && !over ? (
          <button
            type="button"
            class="button"
            disabled={acting.busy}
            onClick={() => void acting.run(alarm.id, { kind: "ended", text: "" })}
          >
            {t("It is over")}
          </button>
        ) : null}
      </div>
      <p role="status" class="more-fault">
        {acting.fault}
      </p>
      {open ? <Explain alarm={alarm} onDone={() => setOpen(false)} /> : null}
    </section>
  );
}

function Explain({ alarm, onDone }: { alarm: Alarm; onDone: () => void }) {
  const [explained, setExplained] = useState<Explained>(alarm.explained?.kind ?? "fault");
  const [text, setText] = useState(alarm.explained?.text ?? "");
  const acting = useActing();
  const submit = async (event: Event) => {
    event.preventDefault();
    if (await acting.run(alarm.id, { kind: "explained", explained, text: text.trim() })) onDone();
  };
  return (
    <form class="more-form" onSubmit={(event) => void submit(event)}>
      <Choice
        label={t("What it was")}
        value={explained}
        options={EXPLAINED.map((one) => ({ value: one, label: explainedWords(one) }))}
        onChange={setExplained}
      />
      <TextField label={t("In your own words")} value={text} lines={3} most={LONGEST} onChange={setText} />
      <p class="more-note">{t("It stays open for as long as readings show it, or until somebody ends it.")}</p>
      <button type="submit" class="button button-strong" disabled={acting.busy || [...text].length > LONGEST}>
        {t("Say so")}
      </button>
      <p role="status" class="more-fault">
        {acting.fault}
      </p>
    </form>
  );
}
