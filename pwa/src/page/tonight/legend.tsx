/** What the picture's fills mean tonight, and how large two cubic metres are in it. */

import type { LoadedNight } from "../night/night";
import type { Program } from "../site/document";
import { t } from "../words/catalogue";
import { volume } from "../words/units";
import { ProgramChip } from "./program-chip";

export function Legend({ night }: { night: LoadedNight }) {
  return (
    <ul class="legend" aria-label={t("Programs tonight")}>
      {programsOf(night).map((program) => (
        <li key={program.id}>
          <ProgramChip program={program} />
          <bdi>{program.name}</bdi>
        </li>
      ))}
    </ul>
  );
}

function programsOf(night: LoadedNight): Program[] {
  const running = new Set(night.sheet.runs.map((run) => run.program));
  return [...night.document.programs.values()].filter((program) => running.has(program.id));
}

/** Area is volume everywhere in the picture: this square says how much. */
const KEY_L = 2000;

export function VolumeKey({ pxPerLitre }: { pxPerLitre: number }) {
  const side = Math.sqrt(KEY_L * pxPerLitre);
  return (
    <p class="volume-key">
      <svg width={side + 2} height={side + 2} aria-hidden="true">
        <rect class="key-square" x="1" y="1" width={side} height={side} />
      </svg>
      {t("this area is {volume}", { volume: volume(KEY_L) })}
    </p>
  );
}
