/** One part or one station that was found. A tap asks whether it is dry there. */

import { fateOf } from "../night/fate";
import { afterWords, fateWords } from "../night/fate-words";
import type { LoadedNight } from "../night/night";
import { nights } from "../night/nights";
import type { Station } from "../site/document";
import { t, tn } from "../words/catalogue";
import { StationTag } from "./station-tag";
import { askAbout, subject } from "./subject";

export function FoundPart({ night, part }: { night: LoadedNight; part: string }) {
  const count = [...night.document.stations.values()].filter((station) => station.part === part).length;
  const asked = subject.value && "part" in subject.value && subject.value.part === part;
  return (
    <li>
      <button
        type="button"
        class={`row${asked ? " row-chosen" : ""}`}
        aria-pressed={asked === true}
        data-part={part}
        onClick={() => askAbout({ part })}
      >
        <span class="row-what">
          <span class="row-name">
            <bdi>{part}</bdi>
          </span>
          <span class="row-under">
            {tn(
              "{count} station in this part: is it dry here?",
              "{count} stations in this part: is it dry here?",
              count,
            )}
          </span>
        </span>
      </button>
    </li>
  );
}

interface FoundStationProps {
  night: LoadedNight;
  station: Station;
  instant: number | null;
}

export function FoundStation({ night, station, instant }: FoundStationProps) {
  const fate = fateOf(night.sheet, night.document, station.id, instant);
  const asked = subject.value && "station" in subject.value && subject.value.station === station.id;
  const after = afterWords(fate, nights.value, station.id, night.sheet.night);
  return (
    <button
      type="button"
      class={`row${asked ? " row-chosen" : ""}`}
      aria-pressed={asked === true}
      data-station={station.id}
      onClick={() => askAbout({ station: station.id })}
    >
      <StationTag number={station.number} brass={asked === true} />
      <span class="row-what">
        <span class="row-name">
          <bdi>{station.name}</bdi>
        </span>
        <span class="row-under">
          <bdi>{station.part || t("Elsewhere")}</bdi>
        </span>
        <span class="row-fate">{fateWords(night, fate, instant !== null)}</span>
        {after ? <span class="row-fate">{after}</span> : null}
      </span>
    </button>
  );
}
