/** What did not fit tonight, how much water that is, and why. */

import type { LoadedNight } from "../night/night";
import { sayFor } from "../night/reading";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { volume } from "../words/units";
import { StationTag } from "./station-tag";

export function MissingList({ night }: { night: LoadedNight }) {
  const { shortfalls } = night.sheet;
  if (shortfalls.length === 0) return null;
  return (
    <section aria-labelledby="missing-title">
      <div class="list-head list-head-short">
        <h2 id="missing-title">{t("Did not fit")}</h2>
      </div>
      <ul class="rows" data-list="missing">
        {shortfalls.map((item) => {
          const station = night.document.stations.get(item.station);
          return (
            <li key={item.turn} class="row row-plain">
              <StationTag number={station?.number ?? item.station} />
              <span class="row-what">
                <span class="row-name">
                  <bdi>{station?.name ?? ""}</bdi>
                </span>
                <span class="row-under">{sayFor(night, item.why)}</span>
              </span>
              <span class="row-end">
                <span class="row-length short">{volume(item.volume_l)}</span>
                <span class="row-left">{duration(item.run_s)}</span>
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
