/** On the picture: a line at a run's foot for the time in which its valve was open, dashes around what was lost. */

import "../look/journal.css";
import { useMemo } from "preact/hooks";
import { outline } from "../picture/outline";
import type { Block, Scene } from "../picture/scene";
import { t } from "../words/catalogue";
import type { Ran } from "./ran";
import { ran } from "./tonight-ran";

/** In pixels: on a phone runs are low, and a line must not hide one. */
const [THINNEST, THICKEST] = [0.75, 2.5];

export function RanLayer({ scene }: { scene: Scene }) {
  const known = ran.value;
  return useMemo(
    () => (
      // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of lines, which nothing focuses
      <g class="ran" aria-hidden="true">
        {scene.blocks.map((block) => {
          const found = known.get(block.key);
          return found ? <RanBlock key={block.key} block={block} ran={found} scene={scene} /> : null;
        })}
      </g>
    ),
    [scene, known],
  );
}

function RanBlock({ block, ran: { how, spans, run }, scene }: { block: Block; ran: Ran; scene: Scene }) {
  const height = block.pieces[0]?.height ?? 0;
  const thick = Math.max(THINNEST, Math.min(THICKEST, height / 6));
  const foot = Math.max(...block.pieces.map((piece) => piece.y + piece.height)) - thick / 2 - 0.5;
  const lines = spans.map(({ start, end }) => {
    const [from, to] = [scene.x(start), scene.x(end ?? run.end)];
    return `M${Math.min(from, to)} ${foot}H${Math.max(from, to)}`;
  });
  return (
    <>
      {how === "as_planned" ? null : <path class="ran-lost" d={outline(block.pieces)} />}
      <path class="ran-line" d={lines.join("")} stroke-width={thick} />
    </>
  );
}

export function RanKey() {
  if (ran.value.size === 0) return null;
  const lost = [...ran.value.values()].some((one) => one.how !== "as_planned");
  return (
    <>
      <li>
        <svg width="26" height="16" aria-hidden="true">
          <path class="key-square" d="M1 1H25V15H1Z" />
          <path class="ran-line" d="M1 13.5H25" stroke-width={THICKEST} />
        </svg>
        {t("its valve was open")}
      </li>
      {lost ? (
        <li>
          <svg width="26" height="16" aria-hidden="true">
            <path class="ran-lost" d="M1.5 1.5H24.5V14.5H1.5Z" />
          </svg>
          {t("ran otherwise than planned, or not")}
        </li>
      ) : null}
    </>
  );
}
