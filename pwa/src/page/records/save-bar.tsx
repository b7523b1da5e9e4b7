/** Keeping a form or putting it back. It stands at the foot of the screen as long as something is changed. */

import { useState } from "preact/hooks";
import { t, tn } from "../words/catalogue";
import { effectWords } from "./effect-words";
import { faultLine, keepFaultWords } from "./fault-words";
import { effectOf, type Form, isShown, isTried, type KeepOutcome, keepForm, unreadIn } from "./form";
import { recordTitle } from "./record-words";

interface SaveBarProps {
  form: Form;
  outcome: KeepOutcome | null;
  onOutcome: (outcome: KeepOutcome) => void;
  onPutBack: () => void;
}

export function SaveBar({ form, outcome, onOutcome, onPutBack }: SaveBarProps) {
  const [busy, setBusy] = useState(false);
  const count = form.changes.length;
  const pending = count > 0 || form.was === undefined || unreadIn(form.name).length > 0;
  if (!pending || !form.record) return null;
  const save = async () => {
    setBusy(true);
    const name = recordTitle(form.record, form.records);
    const added = form.was === undefined;
    const found = await keepForm(form, () => (added ? t("Added {name}.", { name }) : t("Kept {name}.", { name })));
    setBusy(false);
    onOutcome(found);
  };
  return (
    <div class="save">
      <FaultList form={form} />
      {outcome && outcome !== "kept" && outcome !== "faults" ? (
        <p class="save-fault" role="alert">
          {keepFaultWords(outcome)}
        </p>
      ) : null}
      <EffectLine name={form.name} />
      <div class="save-bar">
        <button type="button" class="button" onClick={onPutBack}>
          {form.was ? t("Put back") : t("Discard")}
        </button>
        <button type="button" class="button button-keep" disabled={busy} onClick={() => void save()}>
          {form.was ? tn("Keep {count} edit", "Keep {count} edits", count) : t("Keep it")}
        </button>
      </div>
    </div>
  );
}

/** Where the effect is out of sight, its gist: it leads to the whole. */
function EffectLine({ name }: { name: string }) {
  const words = effectWords(effectOf(name));
  if (!words) return null;
  const show = () => document.getElementById("record-effect")?.scrollIntoView({ block: "start" });
  return (
    <button type="button" class="save-effect" onClick={show}>
      {words}
    </button>
  );
}

/** Every fault at once, with the names of record and field, and the limits in the reader's units. */
function FaultList({ form }: { form: Form }) {
  const lines = [
    ...unreadIn(form.name),
    ...form.faults.filter((fault) => isShown(form, fault)).map((fault) => faultLine(fault, form.records)),
  ];
  if (!lines.length) return null;
  const title = isTried(form.name)
    ? tn("Not kept yet: {count} thing to put right", "Not kept yet: {count} things to put right", lines.length)
    : tn("{count} thing to put right", "{count} things to put right", lines.length);
  return (
    <div class="save-faults" role="alert">
      <h2>{title}</h2>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
}
