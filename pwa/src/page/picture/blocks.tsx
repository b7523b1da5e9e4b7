/** The runs: blocks as high as their flow and as wide as their minutes, in their program's colour and pattern. */

import { type LoadedNight, selected } from "../night/night";
import { timeAt } from "../night/reading";
import { t } from "../words/catalogue";
import { flow, volume } from "../words/units";
import { Seam } from "./axis-row";
import { type BlockLabel, labelFor, widthOf } from "./labels";
import { outline } from "./outline";
import { ASKED_LOOK, fillName, lookOf, type ProgramLook } from "./programs";
import type { Block, Scene } from "./scene";

interface BlocksProps {
  scene: Scene;
  night: LoadedNight;
  instant: number | null;
  wide: boolean;
  mirrored: boolean;
}

export function Blocks({ scene, night, instant, wide, mirrored }: BlocksProps) {
  const current = scene.blocks.find((block) => block.key === selected.value) ?? firstToCome(scene, instant);
  return (
    <>
      <g class="blocks" role="listbox" aria-label={t("Runs of the night")}>
        {scene.blocks.map((block) => (
          <RunBlock
            key={block.key}
            block={block}
            night={night}
            past={instant !== null && block.run.end <= instant}
            reachable={block === current}
            wide={wide}
            mirrored={mirrored}
          />
        ))}
      </g>
      {night.clock.changes.map((change) => (
        <Seam key={change.at} x={scene.x(change.at)} height={scene.height} faint />
      ))}
    </>
  );
}

/** One block is reached by the tab key; the arrows lead on from there. */
function firstToCome(scene: Scene, instant: number | null): Block | undefined {
  return scene.blocks.find((block) => instant !== null && block.run.start > instant) ?? scene.blocks[0];
}

interface RunBlockProps {
  block: Block;
  night: LoadedNight;
  past: boolean;
  reachable: boolean;
  wide: boolean;
  mirrored: boolean;
}

function RunBlock({ block, night, past, reachable, wide, mirrored }: RunBlockProps) {
  const { run, key, pieces } = block;
  const program = run.program ? night.document.programs.get(run.program) : undefined;
  const look = program ? lookOf(program.place) : ASKED_LOOK;
  return (
    <g
      id={`run-${key}`}
      class={`block hue-${look.hue}${past ? " block-past" : ""}`}
      role="option"
      aria-selected={selected.value === key}
      aria-label={spoken(night, block)}
      tabIndex={reachable ? 0 : -1}
      data-run={key}
    >
      <path class="block-fill" d={outline(pieces)} fill={`url(#${fillName(look)})`} />
      <Label block={block} look={look} night={night} wide={wide} mirrored={mirrored} />
    </g>
  );
}

function spoken(night: LoadedNight, { run }: Block): string {
  return t("{station}, {start} to {end}, {flow}, {volume}", {
    station: night.document.nameOf("station", run.station),
    start: timeAt(night.clock, run.start),
    end: timeAt(night.clock, run.end),
    flow: flow(run.flow_lpm),
    volume: volume(run.volume_l),
  });
}

interface LabelProps {
  block: Block;
  look: ProgramLook;
  night: LoadedNight;
  wide: boolean;
  mirrored: boolean;
}

/** Written on the widest piece, where the block steps. Plates keep the pattern away from the letters. */
function Label({ block, look, night, wide, mirrored }: LabelProps) {
  const piece = block.pieces.reduce((best, other) => (other.width > best.width ? other : best));
  const label = labelFor(wide, piece.width, piece.height, labelOf(night, block));
  const near = mirrored ? piece.x + piece.width - 5 : piece.x + 5;
  const far = mirrored ? piece.x + 5 : piece.x + piece.width - 5;
  const middle = piece.x + piece.width / 2;
  const plated = look.pattern !== 0;
  const end = (text: string, x: number) => ({ text, x: x - (mirrored ? 0 : widthOf(text)) });
  const start = (text: string, x: number) => ({ text, x: x - (mirrored ? widthOf(text) : 0) });
  if (!wide) {
    const y = piece.y + piece.height / 2 + 4.5;
    return label.letter ? (
      <Plate text={label.letter} x={middle - widthOf(label.letter) / 2} y={y} plated={plated} />
    ) : null;
  }
  return (
    <>
      {label.code ? <Plate {...start(label.code, near)} y={piece.y + 14} plated={plated} strong /> : null}
      {label.place ? <Plate {...start(label.place, near)} y={piece.y + 29} plated={plated} /> : null}
      {label.letter ? <Plate {...end(label.letter, far)} y={piece.y + 14} plated={plated} /> : null}
    </>
  );
}

function labelOf(night: LoadedNight, { run }: Block): BlockLabel {
  const station = night.document.stations.get(run.station);
  const program = run.program ? night.document.programs.get(run.program) : undefined;
  return { code: station?.number ?? run.station, place: station?.name ?? "", letter: program?.letter ?? "" };
}

function Plate({
  text,
  x,
  y,
  plated,
  strong = false,
}: {
  text: string;
  x: number;
  y: number;
  plated: boolean;
  strong?: boolean;
}) {
  return (
    <>
      {plated ? <rect class="plate" x={x - 2} y={y - 11.5} width={widthOf(text) + 4} height={14} /> : null}
      <text class={strong ? "block-text block-strong" : "block-text"} x={x + widthOf(text) / 2} y={y}>
        {text}
      </text>
    </>
  );
}
