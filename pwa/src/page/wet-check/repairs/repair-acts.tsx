/** What is done to a repair: its state, who sees to it, and what they write about it. */

import { PickList } from "../../controls/pick-list";
import { TextField } from "../../controls/text-field";
import { draftOf, putDraft } from "../../edits/drafts";
import type { SiteDocument, SiteRecord } from "../../site/document";
import { copy, person } from "../../store/queries";
import { t } from "../../words/catalogue";
import type { State } from "../words";
import { type changesTo, ownersOf } from "./repairs";

export type Next = Parameters<typeof changesTo>[1];

/** Only ways that lead on from where it is; the likeliest first. */
export function States({ state, become }: { state: State; become: (to: State) => () => void }) {
  const ways: Record<State, { to: State; words: string }[]> = {
    open: [
      { to: "in_hand", words: t("I take it") },
      { to: "done", words: t("It is done") },
      { to: "dropped", words: t("Drop it") },
    ],
    in_hand: [
      { to: "done", words: t("It is done") },
      { to: "open", words: t("Leave it open") },
      { to: "dropped", words: t("Drop it") },
    ],
    done: [{ to: "open", words: t("Open it again") }],
    dropped: [{ to: "open", words: t("Open it again") }],
  };
  return (
    <div class="wet-acts">
      {ways[state].map(({ to, words }, place) => (
        <button key={to} type="button" class={`button${place === 0 ? " button-strong" : ""}`} onClick={become(to)}>
          {words}
        </button>
      ))}
    </div>
  );
}

interface ActingProps {
  repair: SiteRecord;
  act: (next: Next, said: () => string) => Promise<boolean>;
}

export function Owner({ document, repair, act }: ActingProps & { document: SiteDocument }) {
  const known = [person.value?.name ?? "", ...Object.values(copy.value?.people ?? {}), ...ownersOf(document)];
  const names = [...new Set([...known, String(repair.owner ?? "")])].filter(Boolean);
  return (
    <div class="wet-field">
      <PickList
        label={t("Who sees to it")}
        value={String(repair.owner ?? "")}
        options={[{ value: "", label: t("Nobody yet") }, ...names.map((name) => ({ value: name, label: name }))]}
        onChange={(owner) =>
          void act({ owner }, () =>
            owner ? t("{person} sees to it.", { person: owner }) : t("Nobody sees to it yet."),
          )
        }
      />
    </div>
  );
}

const LONGEST = 4000;

export function Notes({ repair, act }: ActingProps) {
  const name = `repair/${repair.id}`;
  const was = String(repair.notes ?? "");
  const notes = draftOf<string>(name) ?? was;
  const keep = async () => {
    if (await act({ notes: notes.trim() }, () => t("Kept the note."))) putDraft(name, null);
  };
  return (
    <div class="wet-field">
      <TextField
        label={t("Note")}
        value={notes}
        lines={3}
        most={LONGEST}
        onChange={(typed) => putDraft(name, typed === was ? null : typed)}
      />
      {notes === was ? null : (
        <button type="button" class="button button-strong" onClick={() => void keep()}>
          {t("Keep the note")}
        </button>
      )}
    </div>
  );
}
