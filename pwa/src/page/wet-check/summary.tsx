/** The end of a walk: what was looked at, what was found, and what was left out. */

import { useLayoutEffect } from "preact/hooks";
import type { SiteDocument } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { duration } from "../words/durations";
import { listed } from "../words/lists";
import { change, put } from "./under-way";
import { back, count, type Fate, type Stop, type Walk } from "./walk";
import { foundWords, stationsWords } from "./words";

export function Summary({ document, walk }: { document: SiteDocument; walk: Walk }) {
  const found = walk.stops.filter((stop) => stop.seen.length);
  useLayoutEffect(() => window.scrollTo(0, 0), []);
  const many = found.reduce((sum, stop) => sum + stop.seen.length, 0);
  return (
    <div class="wet-summary">
      <section class="wet-place" aria-labelledby="summary-title">
        <h2 id="summary-title" class="wet-ended">
          {many ? tn("{count} finding", "{count} findings", many) : t("Nothing was found broken.")}
        </h2>
        <p>{lookedWords(walk)}</p>
      </section>
      <div class="wet-acts">
        {many ? (
          <button type="button" class="button button-strong" onClick={() => go("wet-check", "repairs")}>
            {t("See the repairs")}
          </button>
        ) : null}
        <button type="button" class="button" onClick={() => change(back)}>
          {t("Back into the walk")}
        </button>
        <button type="button" class={`button${many ? "" : " button-strong"}`} onClick={() => put(null)}>
          {t("Close this walk")}
        </button>
      </div>
      <Stops title={t("To be mended")} stops={found} document={document} />
      <Stops title={t("Skipped")} stops={of(walk, "skipped")} document={document} />
      {of(walk, "ahead").length ? (
        <details class="as-table">
          <summary>{t("Not reached: {stations}", { stations: stationsWords(of(walk, "ahead").length) })}</summary>
          <Stops title={t("Not reached")} stops={of(walk, "ahead")} document={document} />
        </details>
      ) : null}
    </div>
  );
}

function lookedWords(walk: Walk): string {
  const stations = stationsWords(count(walk, "checked"));
  return walk.ended === null
    ? t("{stations} checked.", { stations })
    : t("{stations} checked in {duration}.", { stations, duration: duration(Math.max(60, walk.ended - walk.began)) });
}

function of(walk: Walk, fate: Fate): Stop[] {
  return walk.stops.filter((stop) => stop.fate === fate && !stop.seen.length);
}

interface StopsProps {
  title: string;
  stops: readonly Stop[];
  document: SiteDocument;
}

function Stops({ title, stops, document }: StopsProps) {
  if (!stops.length) return null;
  return (
    <section>
      <div class="list-head">
        <h2>{title}</h2>
        <p>{stationsWords(stops.length)}</p>
      </div>
      <ul>
        {stops.map(({ station, seen }) => (
          <li key={station} class="row">
            <StationTag number={document.stations.get(station)?.number ?? ""} />
            <span class="row-what">
              <span class="row-name">
                <bdi>{document.stations.get(station)?.name ?? station}</bdi>
              </span>
              {seen.length ? (
                <span class="row-under">{listed(seen.map((one) => foundWords(one.found, one.count)))}</span>
              ) : null}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
