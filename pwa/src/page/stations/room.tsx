/** The room of the stations: the list, and beside it or instead of it the station somebody looks at. */

import "../look/controls.css";
import "../look/effect.css";
import "../look/lists.css";
import "../look/stations.css";
import { useRef } from "preact/hooks";
import { useMedia } from "../ahead/use-media";
import { Patterns } from "../picture/patterns";
import type { SiteDocument } from "../site/document";
import { NoStations } from "../tonight/no-stations";
import { RoomHead } from "../way/room-head";
import { t } from "../words/catalogue";
import { AskRun } from "./ask-run";
import { firstShown, ground, nextRuns } from "./ground";
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
  const opened = useOpened(document, beside && words.length === 0);
  if (!document) return <NoSite />;
  const detail = words.length > 0;
  const shown = detail ? words : [opened];
  return (
    <main class={`stations${beside ? " stations-beside" : ""}`}>
      <Patterns />
      {beside || !detail ? (
        <div class="stations-side">
          <RoomHead title={t("Stations")} sub={<bdi>{document.name}</bdi>} />
          <StationList document={document} here={beside ? (shown[0] ?? null) : null} column={beside} />
        </div>
      ) : null}
      {beside || detail ? (
        <div class="stations-main">
          <DetailAt document={document} words={shown} />
        </div>
      ) : null}
    </main>
  );
}

/** A station's own id wins over the words of this room: a site may call a station `seasonal`. */
function DetailAt({ document, words }: { document: SiteDocument; words: string[] }) {
  const [first, second, third] = words;
  if (!first) return <NothingYet />;
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

function NoSite() {
  return (
    <main class="stations">
      <RoomHead title={t("Stations")} />
      <p class="stations-hint">{t("No site is on this phone yet.")}</p>
    </main>
  );
}

function NothingYet() {
  return (
    <div class="empty">
      <NoStations />
    </div>
  );
}

/** At a desk a station stands beside the list from the start, and stays there once it is known when water comes. */
function useOpened(document: SiteDocument | null, wanted: boolean): string {
  const held = useRef("");
  if (!wanted || !document) return "";
  if (document.stations.has(held.current)) return held.current;
  const first = firstShown(document);
  if (nextRuns.value.size > 0) held.current = first;
  return first;
}
