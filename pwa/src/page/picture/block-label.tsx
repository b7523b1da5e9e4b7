/** What stands on a block: drawn over all blocks, so that no neighbour covers it. Those who listen hear the block's own name. */

import type { LoadedNight } from "../night/night";
import type { Program } from "../site/document";
import { type BlockLabel, labelFor, widthOf } from "./labels";
import { ASKED_LOOK, lookOf } from "./programs";
import type { Block } from "./scene";

interface LabelProps {
  block: Block;
  night: LoadedNight;
  past: boolean;
  wide: boolean;
  mirrored: boolean;
}

/** Written on the widest piece, where the block steps. Plates keep the pattern away from the letters. */
export function Label({ block, night, past, wide, mirrored }: LabelProps) {
  const program = programOf(night, block);
  const look = program ? lookOf(program.place) : ASKED_LOOK;
  const piece = block.pieces.reduce((best, other) => (other.width > best.width ? other : best));
  const label = labelFor(wide, piece.width, piece.height, labelOf(night, block, program));
  const plated = look.pattern !== 0;
  const inset = (text: string) => widthOf(text) / 2 + 5;
  const near = (text: string) => (mirrored ? piece.x + piece.width - inset(text) : piece.x + inset(text));
  const far = (text: string) => (mirrored ? piece.x + inset(text) : piece.x + piece.width - inset(text));
  const top = wide ? piece.y + 14 : piece.y + piece.height / 2 + 4.5;
  const letterX = wide ? far(label.letter) : piece.x + piece.width / 2;
  return (
    <g class={`hue-${look.hue}${past ? " block-past" : ""}`}>
      <Plate text={label.code} middle={near(label.code)} y={top} plated={plated} />
      <Plate text={label.place} middle={near(label.place)} y={top + 15} plated={plated} />
      <Plate text={label.letter} middle={letterX} y={top} plated={plated} />
    </g>
  );
}

function programOf(night: LoadedNight, { run }: Block): Program | undefined {
  return run.program ? night.document.programs.get(run.program) : undefined;
}

function labelOf(night: LoadedNight, { run }: Block, program: Program | undefined): BlockLabel {
  const station = night.document.stations.get(run.station);
  return { code: station?.number ?? run.station, place: station?.name ?? "", letter: program?.letter ?? "" };
}

interface PlateProps {
  text: string;
  middle: number;
  y: number;
  plated: boolean;
}

function Plate({ text, middle, y, plated }: PlateProps) {
  if (!text) return null;
  const width = widthOf(text) + 4;
  return (
    <>
      {plated ? <rect class="plate" x={middle - width / 2} y={y - 11.5} width={width} height={14} /> : null}
      <text class="block-text" x={middle} y={y}>
        {text}
      </text>
    </>
  );
}
