/** One station of a walk: its time in large figures, what is broken there, and the way on. */

import { useEffect, useLayoutEffect } from "preact/hooks";
import { draftOf, putDraft } from "../edits/drafts";
import { FOUND } from "../journal/shapes";
import { placeOf } from "../place/place";
import { PutHere } from "../place/put-here";
import type { SiteDocument } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { t } from "../words/catalogue";
import { sideBySide } from "../words/lists";
import { type Finding, newFinding } from "./finding";
import { FindingForm } from "./finding-form";
import { StationTimer } from "./station-timer";
import { change, keptHere, phoneTime, underWayWords } from "./under-way";
import { back, end, next, skip, stopAt, type Walk, without } from "./walk";
import { foundName, foundWords } from "./words";

export function WalkPage({ document, walk }: { document: SiteDocument; walk: Walk }) {
  const stop = stopAt(walk);
  const station = document.stations.get(stop?.station ?? "");
  useEffect(() => change((now) => without(now, (id) => document.stations.has(id))), [document]);
  useLayoutEffect(() => window.scrollTo(0, 0), [stop?.station]);
  if (!stop || !station) return null;
  const name = `wet-check/${station.id}`;
  const finding = draftOf<Finding>(name);
  const write = (draft: Finding | null) => putDraft(name, draft);
  return (
    <div class="wet-walk">
      <section class="wet-place" aria-label={t("Station")}>
        <p class="wet-step">{underWayWords()}</p>
        <h2 class="wet-station">
          <StationTag number={station.number} brass large />
          <bdi class="place">{station.name}</bdi>
        </h2>
        <p class="wet-where">{sideBySide([station.part, document.nameOf("supply", supplyOf(document, station.id))])}</p>
      </section>
      <StationTimer key={station.id} walk={walk} number={station.number} />
      {keptHere.value ? null : <p class="wet-note">{t("This browser keeps nothing: a reload ends this walk.")}</p>}
      {finding ? (
        <FindingForm finding={finding} station={station} onChange={write} />
      ) : (
        <Broken stop={stop} onFound={(found) => write(newFinding(found))} />
      )}
      {finding ? null : <Placing document={document} station={station.id} />}
      {finding ? null : <WaysOn walk={walk} found={stop.seen.length > 0} />}
    </div>
  );
}

/** Whoever walks for the first time puts each station in its place; later that is out of the way. */
function Placing({ document, station }: { document: SiteDocument; station: string }) {
  const here = <PutHere key={station} document={document} station={station} />;
  if (!placeOf(document.record("stations", station))) return here;
  return (
    <details class="as-table">
      <summary>{t("It lies elsewhere")}</summary>
      {here}
    </details>
  );
}

function supplyOf(document: SiteDocument, station: string): string {
  return String(document.record("stations", station)?.supply ?? "");
}

interface BrokenProps {
  stop: NonNullable<ReturnType<typeof stopAt>>;
  onFound: (found: (typeof FOUND)[number]) => void;
}

function Broken({ stop, onFound }: BrokenProps) {
  return (
    <section class="wet-broken" aria-labelledby="broken-title">
      <h2 id="broken-title" class="wet-title">
        {t("What is broken here?")}
      </h2>
      {stop.seen.length ? (
        <ul class="wet-seen">
          {stop.seen.map((seen) => (
            <li key={seen.entry}>{t("Noted: {what}", { what: foundWords(seen.found, seen.count) })}</li>
          ))}
        </ul>
      ) : null}
      <div class="wet-kinds">
        {FOUND.map((found) => (
          <button key={found} type="button" class="button wet-kind" onClick={() => onFound(found)}>
            {foundName(found)}
          </button>
        ))}
      </div>
      <button type="button" class="button wet-end" onClick={() => change((walk) => end(walk, phoneTime()))}>
        {t("End the walk here")}
      </button>
    </section>
  );
}

function WaysOn({ walk, found }: { walk: Walk; found: boolean }) {
  const last = walk.here === walk.stops.length - 1;
  return (
    <div class="keep-bar wet-ways">
      {walk.timer.since === null ? null : <p class="wet-close">{t("Its valve is open: close it before you go on.")}</p>}
      <button type="button" class="button" disabled={walk.here === 0} onClick={() => change(back)}>
        {t("Back one")}
      </button>
      {found ? null : (
        <button type="button" class="button" onClick={() => change((now) => skip(now, phoneTime()))}>
          {t("Skip")}
        </button>
      )}
      <button
        type="button"
        class="button button-brass wet-next"
        onClick={() => change((now) => next(now, phoneTime()))}
      >
        {nextWords(found, last)}
      </button>
    </div>
  );
}

function nextWords(found: boolean, last: boolean): string {
  if (last) return found ? t("Finish") : t("All well, finish");
  return found ? t("Next station") : t("All well, next");
}
