/** What else can be done with a record: another like it, or taking it away with what cannot be without it. */

import { keepChanges } from "../edits/keeping";
import { newId } from "../store/ids";
import { go, refine } from "../way/way";
import { t } from "../words/catalogue";
import { listed } from "../words/lists";
import { copyOf } from "./copying";
import { changesWith, putDraft } from "./desk";
import { EMPTY } from "./draft";
import { isTable, TABLES } from "./fields";
import { type Form, type KeepOutcome, putBack } from "./form";
import { recordTitle } from "./record-words";
import { type Removal, removalOf, withRemoval } from "./references";
import { countOf } from "./table-words";

interface RecordActionsProps {
  form: Form;
  onOutcome: (outcome: KeepOutcome) => void;
}

export function RecordActions({ form, onOutcome }: RecordActionsProps) {
  const { was, table } = form;
  if (!was || !form.mayEdit || table === "site") return null;
  const removal = removalOf(form.records, table, was.id);
  return (
    <section class="record-section record-actions" aria-label={t("More to do")}>
      <button type="button" class="button" onClick={() => copy(form)}>
        {t("Another like this")}
      </button>
      <button
        type="button"
        class="button button-away"
        disabled={removal.stays.length > 0}
        aria-describedby="removal-words"
        onClick={() => void remove(form, onOutcome)}
      >
        {t("Remove")}
      </button>
      <p id="removal-words" class="field-hint">
        {removalWords(form, removal)}
      </p>
    </section>
  );
}

function copy(form: Form): void {
  if (!form.record) return;
  putDraft(`${form.table}/new`, copyOf(form.records, form.record, newId));
  go("site", form.table, "new");
}

async function remove(form: Form, onOutcome: (outcome: KeepOutcome) => void): Promise<void> {
  const { was, records, table } = form;
  if (!was) return;
  const name = recordTitle(was, records);
  const changes = changesWith(withRemoval(EMPTY, records, table, was.id));
  const outcome = await keepChanges(changes, () => t("Removed {name}.", { name }));
  if (outcome !== "kept") return onOutcome(outcome);
  putBack(form.name);
  refine("site", table);
}

/** What removing it would take along, let go of, or has to wait for. */
function removalWords(form: Form, { stays, goes, letGo }: Removal): string {
  if (stays.length) {
    const names = stays.slice(0, 3).map(({ record }) => recordTitle(record, form.records));
    return stays.length > 3
      ? t("It cannot go while others hang on it: {names} and more. Move them first.", { names: names.join(", ") })
      : t("It cannot go while others hang on it: {names}. Move them first.", { names: listed(names) });
  }
  const along = counts(goes.map((record) => record.table));
  const freed = counts(letGo.map(({ record }) => record.table));
  if (along && freed) return t("With it goes: {along}. Stays without it: {freed}. It can be undone.", { along, freed });
  if (along) return t("With it goes: {along}. It can be undone.", { along });
  return freed ? t("Stays without it: {freed}. It can be undone.", { freed }) : t("It can be undone.");
}

function counts(tables: readonly string[]): string {
  const found = TABLES.filter((table) => isTable(table) && tables.includes(table));
  return listed(found.map((table) => countOf(table, tables.filter((one) => one === table).length)));
}
