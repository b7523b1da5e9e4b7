/** One station: when it gets water, its turns, what it is, and its notes. */

import { JournalWay } from "../journal/way";
import { PutHere } from "../place/put-here";
import type { SiteDocument, Station } from "../site/document";
import { mayEdit } from "../store/queries";
import { StationTag } from "../tonight/station-tag";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { Badges } from "./badges";
import { ComingRuns } from "./coming-runs";
import { Detail } from "./detail";
import { factsOf } from "./facts";
import { linesOf } from "./list";
import { StationNotes } from "./station-notes";
import { TurnRow } from "./turn-row";
import { WhoMay } from "./who-may";

export function StationPage({ document, station }: { document: SiteDocument; station: Station }) {
  const turns = linesOf(document).find((line) => line.id === station.id)?.turns ?? [];
  return (
    <Detail title={<bdi>{station.name}</bdi>} sub={<bdi>{station.part}</bdi>}>
      <div class="station-body">
        <div class="station-name">
          <StationTag number={station.number} brass large />
          <bdi class="place">{station.name}</bdi>
        </div>
        <Badges table="stations" record={station.id} />
        <ComingRuns station={station.id} />
        <section aria-labelledby="turns-title">
          <div class="list-head">
            <h2 id="turns-title">{t("Run times")}</h2>
          </div>
          {turns.length === 0 ? <p class="list-none">{t("This station is in no program.")}</p> : null}
          {turns.map((turn) => (
            <TurnRow key={turn.id} document={document} station={station.id} turn={turn} />
          ))}
        </section>
        <WhoMay />
        {mayEdit.value ? (
          <div class="station-buttons station-own">
            <button type="button" class="button" onClick={() => go("stations", station.id, "ask")}>
              {t("Ask for an extra run")}
            </button>
            <button type="button" class="button" onClick={() => go("site", "stations", station.id)}>
              {t("Edit the station's record")}
            </button>
            <button type="button" class="button" onClick={() => go("need", "audits", "new", station.id)}>
              {t("Audit with cans")}
            </button>
          </div>
        ) : null}
        <section aria-labelledby="facts-title">
          <div class="list-head">
            <h2 id="facts-title">{t("What it is")}</h2>
          </div>
          <dl class="station-facts">
            {factsOf(document, station.id).map(({ name, words }) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>
                  <bdi>{words}</bdi>
                </dd>
              </div>
            ))}
          </dl>
        </section>
        <PutHere document={document} station={station.id} />
        <div class="station-buttons station-own">
          <JournalWay table="station" id={station.id} />
        </div>
        <StationNotes document={document} station={station.id} />
      </div>
    </Detail>
  );
}
