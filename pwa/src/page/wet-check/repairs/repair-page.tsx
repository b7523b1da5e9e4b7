/** One repair: what is broken where, who sees to it, how far they are, and what they write about it. */

import { useState } from "preact/hooks";
import { PickList } from "../../controls/pick-list";
import { TextField } from "../../controls/text-field";
import { draftOf, putDraft } from "../../edits/drafts";
import { type Kept, keepChanges } from "../../edits/keeping";
import { keepFaultWords } from "../../records/fault-words";
import type { SiteDocument, SiteRecord } from "../../site/document";
import { Badges } from "../../stations/badges";
import { copy, mayNote, person } from "../../store/queries";
import { StationTag } from "../../tonight/station-tag";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { shortDay } from "../../words/moments";
import { walkCautions } from "../cautions";
import { Picture } from "../photos/picture";
import { foundWords, type State, stateName, stateOf } from "../words";
import { changesTo, ownersOf, photosOf } from "./repairs";

interface RepairProps {
  document: SiteDocument;
  repair: SiteRecord;
}

type Next = Parameters<typeof changesTo>[1];

export function RepairPage({ document, repair }: RepairProps) {
  const [fault, setFault] = useState<Exclude<Kept, "kept"> | null>(null);
  const state = stateOf(repair);
  const what = foundWords(String(repair.found ?? "other"), Number(repair.count ?? 1));
  const number = document.stations.get(String(repair.station))?.number ?? "";
  const act = async (next: Next, said: () => string) => {
    const kept = await keepChanges(changesTo(repair, next), said);
    setFault(kept === "kept" ? null : kept);
    return kept === "kept";
  };
  const become = (to: State) => () =>
    void act(
      to === "in_hand" ? { state: to, owner: String(repair.owner ?? "") || (person.value?.name ?? "") } : { state: to },
      () => t("{station}, {what}: {state}.", { station: number, what, state: stateName(to) }),
    );
  return (
    <div class="repair">
      <section class="wet-place" aria-label={what}>
        <p class="wet-step">{stateName(state)}</p>
        <h2 class="wet-station">
          <StationTag number={number} large />
          <span class="place">{what}</span>
        </h2>
        <Badges table="repairs" record={repair.id} />
      </section>
      <Facts document={document} repair={repair} />
      {photosOf(repair).map((photo, index) => (
        <Picture key={photo} id={photo} place={index + 1} />
      ))}
      {state === "open" || state === "in_hand" ? (
        <ul class="cautions wet-cautions" aria-label={t("Caution")}>
          {walkCautions([String(repair.station)])
            .slice(1, -1)
            .map((words) => (
              <li key={words}>{words}</li>
            ))}
        </ul>
      ) : null}
      <p class="keep-words wet-fault" role="status">
        {fault ? keepFaultWords(fault) : ""}
      </p>
      {mayNote.value ? (
        <>
          <States state={state} become={become} />
          <Owner document={document} repair={repair} act={act} />
          <Notes repair={repair} act={act} />
        </>
      ) : null}
      <div class="wet-acts">
        <button type="button" class="button" onClick={() => go("stations", String(repair.station))}>
          {t("See the station")}
        </button>
      </div>
    </div>
  );
}

function Facts({ document, repair }: RepairProps) {
  const facts = [
    [t("Station"), document.nameOf("station", String(repair.station))],
    [t("Part"), document.stations.get(String(repair.station))?.part ?? ""],
    [t("Found on"), repair.found_on ? shortDay(String(repair.found_on)) : ""],
    [t("Found by"), String(repair.found_by ?? "")],
    [t("Who sees to it"), String(repair.owner ?? "") || t("nobody yet")],
    ...(mayNote.value ? [] : [[t("Note"), String(repair.notes ?? "")]]),
  ].filter(([, words]) => words);
  return (
    <dl class="wet-facts">
      {facts.map(([name, words]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            <bdi>{words}</bdi>
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** Only ways that lead on from where it is; the likeliest first. */
function States({ state, become }: { state: State; become: (to: State) => () => void }) {
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

function Owner({ document, repair, act }: ActingProps & { document: SiteDocument }) {
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

function Notes({ repair, act }: ActingProps) {
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
