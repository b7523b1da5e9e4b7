/** The room of the stations: the list, and beside it or instead of it the station somebody looks at. */

import "../look/controls.css";
import "../look/effect.css";
import "../look/lists.css";
import "../look/stations.css";
import { useMedia } from "../ahead/use-media";
import { Patterns } from "../picture/patterns";
import type { SiteDocument } from "../site/document";
import { RoomHead } from "../way/room-head";
import { t } from "../words/catalogue";
import { AskRun } from "./ask-run";
import { ground } from "./ground";
import { linesOf } from "./list";
import { PercentEdit } from "./percent-edit";
import { SeasonalPage } from "./seasonal-page";
import { StationList } from "./station-list";
import { StationPage } from "./station-page";
import { TurnEdit } from "./turn-edit";

const BESIDE = "(min-width: 60rem)";

export function Room({ words }: { words: string[] }) {
  const document = ground.value;
  const beside = useMedia(BESIDE);
  if (!document) return <main class="plain-room">{t("No site is on this phone yet.")}</main>;
  const detail = words.length > 0;
  return (
    <main class={`stations${beside ? " stations-beside" : ""}`}>
      <Patterns />
      {beside || !detail ? (
        <div class="stations-side">
          <RoomHead title={t("Stations")} sub={<bdi>{document.name}</bdi>} />
          <StationList document={document} here={words[0] ?? null} column={beside} />
        </div>
      ) : null}
      {beside || detail ? (
        <div class="stations-main">{detail ? <DetailAt document={document} words={words} /> : <NothingChosen />}</div>
      ) : null}
    </main>
  );
}

/** A station's own id wins over the words of this room: a site may call a station `seasonal`. */
function DetailAt({ document, words }: { document: SiteDocument; words: string[] }) {
  const [first = "", second, third] = words;
  const station = document.stations.get(first);
  if (!station) return <OtherAt document={document} first={first} second={second ?? null} />;
  if (second === "ask") return <AskRun key={first} document={document} station={first} />;
  const turn = linesOf(document)
    .find((line) => line.id === first)
    ?.turns.find((one) => one.id === third);
  if (second === "turn" && turn) return <TurnEdit key={turn.id} document={document} station={station} turn={turn} />;
  return <StationPage key={first} document={document} station={station} />;
}

function OtherAt({ document, first, second }: { document: SiteDocument; first: string; second: string | null }) {
  if (first === "percent") return <PercentEdit document={document} />;
  if (first === "seasonal") return <SeasonalPage document={document} program={second} />;
  if (first === "ask") return <AskRun document={document} station={null} />;
  return <p class="list-none">{t("This station is not on this phone: it may have been removed.")}</p>;
}

function NothingChosen() {
  return (
    <p class="stations-hint">
      {t("Choose a station on the list: its next water, its run times and its notes stand here.")}
    </p>
  );
}
