/** One act in the history: its edits in words, who and when, its effect on that night, and undoing it. */

import { useState } from "preact/hooks";
import { knownNights } from "../effect/grounds";
import { LineFault } from "../line/fetching";
import { SiteClock } from "../site/clock";
import { mayEdit } from "../store/queries";
import { syncNow } from "../sync/follow";
import { t, tn } from "../words/catalogue";
import { longDay, timeOfDay } from "../words/moments";
import { book, openBook, type PastEdit, type Undone, undoSet } from "./book";
import { editWords } from "./edit-words";
import { finishLine, sameFigures, waterLines } from "./effect-words";
import { names } from "./ground";
import { outcomeWords } from "./outcome-words";
import { nameOf } from "./people";
import { toldPast } from "./told";
import { wallOf } from "./when";

/** So many edits of an act are listed; the others are counted. */
const LISTED = 6;

export function HistoryAct({ edits }: { edits: readonly PastEdit[] }) {
  const [first] = edits;
  if (!first) return null;
  const more = edits.length - LISTED;
  const { people } = book.value;
  const by = nameOf(first.person, people[first.person]);
  return (
    <article class="change-act" data-act={first.set}>
      <div class="change-what">
        <ul>
          {edits.slice(0, LISTED).map((edit) => (
            <li key={edit.id}>
              <bdi>{editWords(toldPast(edit), names.value)}</bdi>
              {edit.outcome === "taken" ? null : <span class="change-outcome"> {outcomeWords(edit.outcome)}</span>}
            </li>
          ))}
        </ul>
        {more > 0 ? <p>{tn("and {count} more edit", "and {count} more edits", more)}</p> : null}
        <p class="row-under">
          {t("{name}, {when}", { name: by, when: timeOfDay(wallOf(first.at)) })}{" "}
          {first.decided_by && first.decided_by !== first.person
            ? t("Accepted by {name}.", { name: nameOf(first.decided_by, people[first.decided_by]) })
            : null}{" "}
          {first.undoes ? t("This undid an earlier edit.") : null}
        </p>
        <EffectThen edits={edits} />
      </div>
      {mayEdit.value && edits.some((edit) => edit.outcome === "taken") ? <Undo set={first.set} /> : null}
    </article>
  );
}

/** What it did to the night that was tonight; where several acts were weighed as one, that is said. */
function EffectThen({ edits }: { edits: readonly PastEdit[] }) {
  const effect = edits.find((edit) => edit.effect)?.effect;
  const known = effect && knownNights.value.get(effect.night);
  if (!effect || sameFigures(effect.before, effect.after)) return null;
  const lines = known
    ? [{ text: finishLine(effect.before, effect.after, new SiteClock(known.clock)), short: false }]
    : [];
  const [from, to] = effect.revisions;
  return (
    <p class="change-effect">
      <span>{t("Night of {date}:", { date: longDay(effect.night) })} </span>
      {[...lines, ...waterLines(effect.before, effect.after)].map((line) => (
        <span key={line.text} class={line.short ? "ahead-short" : undefined}>
          {line.text}{" "}
        </span>
      ))}
      {from === to ? null : <span>{t("Together with other edits of that moment.")}</span>}
    </p>
  );
}

function Undo({ set }: { set: string }) {
  const [said, setSaid] = useState("");
  const [busy, setBusy] = useState(false);
  const undo = async () => {
    setBusy(true);
    setSaid(await undone(set));
    setBusy(false);
  };
  return (
    <div class="change-undo">
      <button type="button" class="button" disabled={busy} onClick={() => void undo()}>
        {t("Undo")}
      </button>
      <p role="status">{said}</p>
    </div>
  );
}

async function undone(set: string): Promise<string> {
  try {
    const answers = await undoSet(set);
    syncNow();
    await openBook(book.peek().filters);
    return undoneWords(answers);
  } catch (fault) {
    if (!(fault instanceof LineFault)) throw fault;
    return fault.detail || t("Undoing needs signal. Nothing has changed; try again when there is some.");
  }
}

function undoneWords(answers: readonly Undone[]): string {
  const [odd] = answers.filter((answer) => answer.outcome !== "taken" && answer.outcome !== "agreed");
  if (!odd) return t("Undone.");
  return odd.detail || outcomeWords(odd.outcome);
}
