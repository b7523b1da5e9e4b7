/** The brass frame around the run somebody looks at, and at a desk a brass note of why it stands there. */

import { useEffect, useRef } from "preact/hooks";
import { type LoadedNight, selected } from "../night/night";
import { sayFor } from "../night/reading";
import { widthOf } from "./labels";
import { outline, type Piece } from "./outline";
import type { Scene } from "./scene";

/** Pixels kept between the run and what is next to it. */
const BREATH = 8;

interface SelectedFrameProps {
  scene: Scene;
  night: LoadedNight;
  wide: boolean;
  mirrored: boolean;
}

export function SelectedFrame({ scene, night, wide, mirrored }: SelectedFrameProps) {
  const frame = useRef<SVGGElement>(null);
  const block = scene.blocks.find((one) => one.key === selected.value);
  useEffect(() => {
    // The panel is laid out after the picture: only the next frame knows where it stands.
    const waiting = requestAnimationFrame(() => {
      const covered = coveredBy(frame.current, document.querySelector(".why"));
      if (covered > 0) window.scrollBy(0, covered);
    });
    return () => cancelAnimationFrame(waiting);
  }, [block?.key]);
  if (!block) return null;
  const lowest = block.pieces.reduce((best, piece) => (piece.y + piece.height > best.y + best.height ? piece : best));
  return (
    <g class="selected" ref={frame}>
      <path class="selected-frame" d={outline(block.pieces)} />
      {wide ? <Note text={sayFor(night, block.run.why)} under={lowest} scene={scene} mirrored={mirrored} /> : null}
    </g>
  );
}

/** How far the run must move up, in pixels, so that the panel below does not hide it. */
function coveredBy(frame: Element | null, panel: Element | null): number {
  if (!frame || !panel) return 0;
  const run = frame.getBoundingClientRect();
  return Math.min(run.top - BREATH, run.bottom + BREATH - panel.getBoundingClientRect().top);
}

interface NoteProps {
  text: string;
  under: Piece;
  scene: Scene;
  mirrored: boolean;
}

function Note({ text, under, scene, mirrored }: NoteProps) {
  const width = widthOf(text) + 24;
  const wished = mirrored ? under.x + under.width - width : under.x;
  const x = Math.min(scene.width - width, Math.max(0, wished));
  const foot = under.y + under.height;
  const y = foot + 30 <= scene.height ? foot + 6 : under.y - 30;
  return (
    <g class="note">
      <path
        class="note-plate"
        d={`M${x} ${y}H${x + width}V${y + 14}A10 10 0 0 1 ${x + width - 10} ${y + 24}H${x + 10}A10 10 0 0 1 ${x} ${y + 14}Z`}
      />
      <text class="note-text" x={x + width / 2} y={y + 16.5}>
        {text}
      </text>
    </g>
  );
}
