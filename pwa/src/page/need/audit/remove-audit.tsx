/** Taking an audit away, and its cans with it. It can be undone. */

import { keepChanges } from "../../edits/keeping";
import { changesWith } from "../../records/desk";
import { EMPTY } from "../../records/draft";
import { type Form, type KeepOutcome, putBack } from "../../records/form";
import { recordTitle } from "../../records/record-words";
import { withRemoval } from "../../records/references";
import { refine } from "../../way/way";
import { t } from "../../words/catalogue";

interface RemoveAuditProps {
  form: Form;
  onOutcome: (outcome: KeepOutcome) => void;
}

export function RemoveAudit({ form, onOutcome }: RemoveAuditProps) {
  const { was, records } = form;
  if (!was || !form.mayEdit) return null;
  const remove = async () => {
    const name = recordTitle(was, records);
    const changes = changesWith(withRemoval(EMPTY, records, "audits", was.id));
    const outcome = await keepChanges(changes, () => t("Removed {name}.", { name }));
    if (outcome !== "kept") return onOutcome(outcome);
    putBack(form.name);
    refine("need", "audits");
  };
  return (
    <section class="record-section record-actions" aria-label={t("More to do")}>
      <button type="button" class="button button-away" onClick={() => void remove()}>
        {t("Remove this audit and its cans")}
      </button>
      <p class="field-hint">{t("It can be undone.")}</p>
    </section>
  );
}
