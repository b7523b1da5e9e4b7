/** A program's colour, pattern and letter, as its blocks have them in the picture. */

import { ASKED_LOOK, fillName, lookOf } from "../picture/programs";
import type { Program } from "../site/document";

export function ProgramChip({ program }: { program: Program | undefined }) {
  const look = program ? lookOf(program.place) : ASKED_LOOK;
  return (
    <svg class={`chip hue-${look.hue}`} viewBox="0 0 30 21" aria-hidden="true">
      <path
        class="chip-fill"
        d="M0.75 0.75H29.25V12A8 8 0 0 1 21.25 20.25H8.75A8 8 0 0 1 0.75 12Z"
        fill={`url(#${fillName(look)})`}
      />
      {program?.letter ? (
        <>
          <rect class="plate" x="8" y="2.5" width="14" height="15" />
          <text class="chip-letter" x="15" y="15">
            {program.letter}
          </text>
        </>
      ) : null}
    </svg>
  );
}
