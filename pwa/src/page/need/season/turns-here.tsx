/** The turns that water a hydrozone, those by need first, each with the way to its work. */

import { useState } from "preact/hooks";
import type { SiteDocument, SiteRecord } from "../../site/document";
import { StationTag } from "../../tonight/station-tag";
import { go } from "../../way/way";
import { t, tn } from "../../words/catalogue";
import { duration } from "../../words/durations";

const SHOWN = 8;

export function TurnsHere({ document, zone }: { document: SiteDocument; zone: string }) {
  const [all, showAll] = useState(false);
  const turns = turnsOf(document, zone);
  const rest = turns.length - SHOWN;
  if (turns.length === 0) return null;
  return (
    <section aria-labelledby="season-turns">
      <div class="list-head">
        <h2 id="season-turns">{t("Its turns")}</h2>
      </div>
      <ul>
        {turns.slice(0, all ? undefined : SHOWN).map((turn) => (
          <li key={turn.id}>
            <TurnHere document={document} turn={turn} />
          </li>
        ))}
      </ul>
      {rest > 0 && !all ? (
        <button type="button" class="button need-more" onClick={() => showAll(true)}>
          {tn("Show the other {count}", "Show the other {count}", rest)}
        </button>
      ) : null}
    </section>
  );
}

function TurnHere({ document, turn }: { document: SiteDocument; turn: SiteRecord }) {
  const station = document.stations.get(String(turn.station));
  const byNeed = turn.mode === "need";
  return (
    <button type="button" class="row" data-turn={turn.id} onClick={() => go("need", "turn", turn.id)}>
      <StationTag number={station?.number ?? String(turn.station)} />
      <span class="row-what">
        <span class="row-name">
          <bdi>{station?.name ?? ""}</bdi>
        </span>
        <span class="row-under">
          <bdi>{document.nameOf("program", String(turn.program))}</bdi>
        </span>
      </span>
      <span class="row-end">
        <span class="row-length">{byNeed ? t("by need") : duration(Number(turn.run_s))}</span>
        <span class="row-left">{byNeed ? t("Show the work") : t("set by hand")}</span>
      </span>
    </button>
  );
}

export function turnsOf(document: SiteDocument, zone: string): SiteRecord[] {
  const here = document.all("turns").filter((turn) => document.stations.get(String(turn.station))?.hydrozone === zone);
  return [...here.filter((turn) => turn.mode === "need"), ...here.filter((turn) => turn.mode !== "need")];
}
