/** What the picture's fills mean tonight. */

import type { LoadedNight } from "../night/night";
import type { Program } from "../site/document";
import { t, tn } from "../words/catalogue";
import { ProgramChip } from "./program-chip";

interface LegendProps {
  night: LoadedNight;
  /** On a phone it is folded: the picture comes first. */
  folded: boolean;
}

export function Legend({ night, folded }: LegendProps) {
  const programs = programsOf(night);
  if (programs.length === 0) return null;
  if (!folded) return <Programs programs={programs} />;
  return (
    <details class="legend-fold">
      <summary>
        {tn("{count} program this night", "{count} programs this night", programs.length)}
        <span class="legend-glance" aria-hidden="true">
          {programs.slice(0, 6).map((program) => (
            <ProgramChip key={program.id} program={program} />
          ))}
        </span>
      </summary>
      <Programs programs={programs} />
    </details>
  );
}

function Programs({ programs }: { programs: Program[] }) {
  return (
    <ul class="legend" aria-label={t("Programs tonight")}>
      {programs.map((program) => (
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
