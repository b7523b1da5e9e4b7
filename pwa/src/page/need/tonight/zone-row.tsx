/** One hydrozone of tonight's need: how full its soil is, what it gets tonight or when next, and the way to its season. */

import type { SiteDocument } from "../../site/document";
import { Bowl } from "../../tonight/bowl";
import { go } from "../../way/way";
import { t, tn } from "../../words/catalogue";
import { figure } from "../../words/figures";
import { sideBySide } from "../../words/lists";
import { shortDay } from "../../words/moments";
import { depth } from "../told/amounts";
import type { ZoneNeed } from "../told/shapes";
import { used } from "./urgency";

export function ZoneRow({ zone, document }: { zone: ZoneNeed; document: SiteDocument }) {
  return (
    <li>
      <button
        type="button"
        class="row zone-row"
        data-zone={zone.hydrozone}
        onClick={() => go("need", "hydrozone", zone.hydrozone)}
      >
        <span class="row-lead">
          <Bowl level={fullness(zone)} />
        </span>
        <span class="row-what">
          <span class="row-name">
            <bdi>{document.nameOf("hydrozone", zone.hydrozone)}</bdi>
          </span>
          <span class="row-under">{soilWords(zone)}</span>
        </span>
        <span class="row-end">
          <span class={`row-length${zone.tonight_mm === null ? " short" : ""}`}>{givesWords(zone)}</span>
          <span class="row-left">{whenWords(zone)}</span>
        </span>
      </button>
    </li>
  );
}

/** From 0, all water gone, to 1, the soil full. */
export function fullness({ depletion_mm, total_mm }: ZoneNeed): number {
  return depletion_mm === null || !total_mm ? 0 : 1 - depletion_mm / total_mm;
}

function soilWords(zone: ZoneNeed): string {
  const share = used(zone);
  if (zone.depletion_mm === null || share === null) return t("Nothing can be worked out yet: something is missing.");
  const lacks = t("lacks {depth}", { depth: depth(zone.depletion_mm) });
  const state =
    share > 1 ? t("under stress") : t("{percent} % of the easy water used", { percent: figure(share * 100, 0) });
  return sideBySide([lacks, state]);
}

function givesWords({ tonight_mm, next_mm }: ZoneNeed): string {
  if (tonight_mm === null) return "–";
  if (tonight_mm > 0) return depth(tonight_mm);
  return next_mm === null ? depth(0) : t("about {depth}", { depth: depth(next_mm) });
}

function whenWords({ by_hand, tonight_mm, next_night, stations }: ZoneNeed): string {
  if (tonight_mm === null) return t("See what");
  if (by_hand) return tonight_mm > 0 ? t("would be due; set by hand") : t("set by hand");
  if (tonight_mm > 0) return tn("tonight, {count} station", "tonight, {count} stations", stations.length);
  return next_night ? shortDay(next_night) : t("none in sight");
}
