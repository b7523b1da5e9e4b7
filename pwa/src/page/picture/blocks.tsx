/** The runs: blocks as high as their flow and as wide as their minutes, in their program's colour and pattern. */

import { useMemo } from "preact/hooks";
import { type LoadedNight, selected } from "../night/night";
import { timeAt } from "../night/reading";
import { usePaints } from "../way/paints";
import { catalogue, t } from "../words/catalogue";
import { hours, units } from "../words/reader";
import { flow, volume } from "../words/units";
import { Seam } from "./axis-row";
import { Label } from "./block-label";
import { outline, type Piece } from "./outline";
import { ASKED_LOOK, fillName, lookOf } from "./programs";
import type { Block, Scene } from "./scene";

interface BlocksProps {
  scene: Scene;
  night: LoadedNight;
  instant: number | null;
  wide: boolean;
  mirrored: boolean;
  /** The keys of the runs that hold the finish. */
  chain: ReadonlySet<string>;
}

/** So many blocks are made between two paints: a large night has thousands of them. */
const PORTION = 48;

export function Blocks({ scene, night, instant, wide, mirrored, chain }: BlocksProps) {
  const drawn = PORTION * (1 + usePaints(Math.ceil(scene.blocks.length / PORTION)));
  const current = scene.blocks.find((block) => block.key === selected.value) ?? firstToCome(scene, instant);
  return (
    <>
      <g class="blocks" role="listbox" aria-label={t("Runs of the night")}>
        {scene.blocks.slice(0, drawn).map((block) => (
          <RunBlock
            key={block.key}
            block={block}
            night={night}
            past={instant !== null && block.run.end <= instant}
            reachable={block === current}
            chosen={block.key === selected.value}
            holds={chain.has(block.key)}
          />
        ))}
      </g>
      {drawn < scene.blocks.length ? null : (
        <Labels scene={scene} night={night} instant={instant} wide={wide} mirrored={mirrored} />
      )}
      {night.clock.changes.map((change) => (
        <Seam key={change.at} x={scene.x(change.at)} height={scene.height} faint />
      ))}
    </>
  );
}

/** The labels say nothing of what is selected, so a tap leaves them as they are. */
function Labels({ scene, night, instant, wide, mirrored }: Omit<BlocksProps, "chain">) {
  const past = (block: Block) => instant !== null && block.run.end <= instant;
  const over = scene.blocks.filter(past).length;
  return useMemo(
    () => (
      // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of text, which nothing focuses
      <g class="block-labels" aria-hidden="true">
        {scene.blocks.map((block) => (
          <Label key={block.key} block={block} night={night} past={past(block)} wide={wide} mirrored={mirrored} />
        ))}
      </g>
    ),
    [scene, night, over, wide, mirrored],
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
  chosen: boolean;
  holds: boolean;
}

/** Made anew only where something about it changed. */
function RunBlock(given: RunBlockProps) {
  const { block, night, past, reachable, chosen, holds } = given;
  const reader = [catalogue.value, units.value, hours.value];
  return useMemo(() => <DrawnBlock {...given} />, [block, night, past, reachable, chosen, holds, ...reader]);
}

function DrawnBlock({ block, night, past, reachable, chosen, holds }: RunBlockProps) {
  const { run, key, pieces } = block;
  const program = run.program ? night.document.programs.get(run.program) : undefined;
  const look = program ? lookOf(program.place) : ASKED_LOOK;
  return (
    <g
      id={`run-${key}`}
      class={`block hue-${look.hue}${past ? " block-past" : ""}`}
      role="option"
      aria-selected={chosen}
      aria-label={spoken(night, block)}
      tabindex={reachable ? 0 : -1}
      data-run={key}
    >
      <path class="block-fill" d={outline(pieces)} fill={`url(#${fillName(look)})`} />
      {holds ? <path class="chain-base" d={base(pieces)} /> : null}
    </g>
  );
}

/** The brass base of a run that holds the finish: 4 px, less where the block is hardly higher. */
function base(pieces: readonly Piece[]): string {
  return pieces
    .map(({ x, y, width, height }) => {
      const high = Math.min(4, height / 2);
      return `M${x + 1} ${y + height - high}h${Math.max(0, width - 2)}v${high}h${-Math.max(0, width - 2)}Z`;
    })
    .join("");
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
