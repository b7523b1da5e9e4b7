/** What others did since the reader last looked: what they changed, what they decided, and what met one's own edits. */

import { fieldLabel } from "../records/field-labels";
import { besides, decided } from "../store/queries";
import type { Beside, Waiting } from "../store/shapes";
import { t } from "../words/catalogue";
import { newest, type PastEdit } from "./book";
import { editWords, setWords, subjectOf } from "./edit-words";
import { names } from "./ground";
import { isMe, nameOf } from "./people";
import { mark, unseen } from "./seen";
import { acts } from "./sets";
import { told, toldPast } from "./told";
import { whenWords } from "./when";

export function NewsList() {
  const found = acts(unseen.value);
  const own = decided.value.filter(decidedByOthers);
  const met = besides.value;
  return (
    <section aria-labelledby="news-title">
      <div class="list-head">
        <h2 id="news-title">{t("Since you last looked")}</h2>
        {mark.value === null ? null : <p>{whenWords(mark.value.at)}</p>}
      </div>
      {found.length + own.length + met.length === 0 ? (
        <p class="list-none">
          {mark.value === null
            ? t("From now on this tells what others change while you are away.")
            : t("Nobody else changed anything.")}
        </p>
      ) : (
        <ul class="rows" data-list="news">
          {own.map((one) => (
            <Decided key={one.edit.id} waiting={one} />
          ))}
          {met.map((one) => (
            <Met key={one.edit.id} beside={one} />
          ))}
          {found.map((act) => (
            <Changed key={act.id} edits={act.items} />
          ))}
        </ul>
      )}
    </section>
  );
}

function decidedByOthers(one: Waiting): boolean {
  const since = mark.value;
  return isMe(one.edit.person) && !isMe(one.closed_by) && (since === null || (one.closed_at ?? 0) >= since.at);
}

function Changed({ edits }: { edits: readonly PastEdit[] }) {
  const [first] = edits;
  if (!first) return null;
  return (
    <li class="change-act">
      <div class="change-what">
        <p>
          <bdi>{setWords(edits.map(toldPast), names.value)}</bdi>
        </p>
        <p class="row-under">
          {t("{name}, {when}", {
            name: nameOf(first.person, newest.value.people[first.person]),
            when: whenWords(first.at),
          })}
        </p>
      </div>
    </li>
  );
}

/** Whoever proposed something is told what became of it. */
function Decided({ waiting }: { waiting: Waiting }) {
  const words = {
    name: nameOf(waiting.closed_by),
    when: waiting.closed_at === null ? "" : whenWords(waiting.closed_at),
  };
  const how: Record<string, () => string> = {
    settled: () => t("{name} settled it, {when}.", words),
    accepted: () => t("{name} accepted it, {when}.", words),
    declined: () => t("{name} declined it, {when}.", words),
    discarded: () => t("{name} discarded it, {when}.", words),
    upgraded: () => t("The server was updated and has taken it up."),
  };
  return (
    <li class="change-act">
      <div class="change-what">
        <p>
          <bdi>{editWords(told(waiting), names.value)}</bdi>
        </p>
        <p class="row-under">{(how[waiting.closed_how ?? ""] ?? (() => t("It has been decided.")))()}</p>
      </div>
    </li>
  );
}

/** Other fields of a record that one has just edited: both stand, and the editor is told. */
function Met({ beside }: { beside: Beside }) {
  const { edit, fields } = beside;
  return (
    <li class="change-act">
      <div class="change-what">
        {fields.map((one) => (
          <p key={one.field}>
            {t("{name} also changed the {field} of {record}.", {
              name: nameOf(one.by, one.by_name),
              field: fieldLabel(edit.table, one.field),
              record: subjectOf(edit, names.value),
            })}
          </p>
        ))}
      </div>
    </li>
  );
}
