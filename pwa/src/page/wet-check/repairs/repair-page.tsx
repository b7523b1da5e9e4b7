/** One repair: what is broken where, who sees to it, how far they are, and what they write about it. */

import { useState } from "preact/hooks";
import { type Kept, keepChanges } from "../../edits/keeping";
import { keepFaultWords } from "../../records/fault-words";
import type { SiteDocument, SiteRecord } from "../../site/document";
import { Badges } from "../../stations/badges";
import { mayNote, person } from "../../store/queries";
import { StationTag } from "../../tonight/station-tag";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { shortDay } from "../../words/moments";
import { walkCautions } from "../cautions";
import { Picture } from "../photos/picture";
import { foundWords, type State, stateName, stateOf } from "../words";
import { type Next, Notes, Owner, States } from "./repair-acts";
import { changesTo, photosOf } from "./repairs";

interface RepairProps {
  document: SiteDocument;
  repair: SiteRecord;
}

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
      {photosOf(repair).map((photo, index) => (
        <Picture key={photo} id={photo} place={index + 1} />
      ))}
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
