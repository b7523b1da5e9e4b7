/** Soaks, drawn like ties in a score. */

import { useMemo } from "preact/hooks";
import { selected } from "../night/night";
import type { Scene } from "./scene";
import { shownTies, tiePath, tiesOf } from "./ties";

interface TiesProps {
  scene: Scene;
  wide: boolean;
  mirrored: boolean;
}

export function Ties({ scene, wide, mirrored }: TiesProps) {
  const ties = useMemo(() => tiesOf(scene, mirrored), [scene, mirrored]);
  const turn = scene.blocks.find((block) => block.key === selected.value)?.run.turn;
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of lines, which nothing focuses
    <g class="ties" aria-hidden="true">
      {shownTies(ties, wide, turn).map((tie) => (
        <g key={tie.key} class={tie.turn === turn ? "tie tie-selected" : "tie"}>
          <path class="tie-ground" d={tiePath(tie)} />
          <path class="tie-line" d={tiePath(tie)} />
        </g>
      ))}
    </g>
  );
}
