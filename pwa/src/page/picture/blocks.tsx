/** The runs: blocks as high as their flow and as wide as their minutes, in their program's colour and pattern. */

import { type LoadedNight, selected } from "../night/night";
import { timeAt } from "../night/reading";
import { t } from "../words/catalogue";
import { flow, volume } from "../words/units";
import { Seam } from "./axis-row";
import { Label } from "./block-label";
import { outline } from "./outline";
import { ASKED_LOOK, fillName, lookOf } from "./programs";
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
          />
        ))}
      </g>
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of text, which nothing focuses */}
      <g class="block-labels" aria-hidden="true">
        {scene.blocks.map((block) => (
          <Label
            key={block.key}
            block={block}
            night={night}
            past={instant !== null && block.run.end <= instant}
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
}

function RunBlock({ block, night, past, reachable }: RunBlockProps) {
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
      tabindex={reachable ? 0 : -1}
      data-run={key}
    >
      <path class="block-fill" d={outline(pieces)} fill={`url(#${fillName(look)})`} />
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
