/** The affected lane as it would be, and under its floor the pale reflection of how it was. */

import { useMemo } from "preact/hooks";
import { useWidth } from "../ahead/use-width";
import { now } from "../night/now";
import { Axis } from "../picture/axis-row";
import { Label } from "../picture/block-label";
import { LaneGround, LaneNames } from "../picture/lane-ground";
import { MissingBlocks } from "../picture/missing-blocks";
import { NowLine } from "../picture/now-line";
import { outline } from "../picture/outline";
import { ASKED_LOOK, fillName, lookOf } from "../picture/programs";
import { type Block, type LaneScene, type Scene, sceneOf, twilight } from "../picture/scene";
import type { SiteDocument } from "../site/document";
import { catalogue, t } from "../words/catalogue";
import type { Effect } from "./effect";
import { type LaneAfter, laneAfter, REFLECTED, reflectionPath } from "./lane-after";

interface EffectPictureProps {
  effect: Effect;
  /** The turn that is changed: its runs are framed. */
  turn: string | null;
  /** What the reflection is called; left out, it is the night before the change. */
  beforeName?: string | undefined;
}

export function EffectPicture({ effect, turn, beforeName }: EffectPictureProps) {
  const { ref, width } = useWidth<HTMLDivElement>();
  const mirrored = catalogue.value.direction === "rtl";
  const lane = useMemo(() => laneAfter(effect, turn), [effect, turn]);
  const scene = useMemo(() => {
    // One lane stands as low as on a phone: what is changed and what it does are seen together.
    const frame = { width, wide: false, mirrored };
    return lane && width > 0 ? sceneOf(effect.document, lane.night.sheet, effect.clock, frame) : null;
  }, [effect, lane, width, mirrored]);
  return (
    <div class="effect-picture" ref={ref}>
      {lane && scene ? (
        <Lane effect={effect} lane={lane} scene={scene} turn={turn} mirrored={mirrored} beforeName={beforeName} />
      ) : null}
    </div>
  );
}

interface LaneProps extends EffectPictureProps {
  lane: LaneAfter;
  scene: Scene;
  mirrored: boolean;
}

/** The list of moves beside it says the same: nothing here has to be heard. */
function Lane({ effect, lane, scene, turn, mirrored, beforeName }: LaneProps) {
  const wide = scene.width > 560;
  const last = scene.lanes[scene.lanes.length - 1];
  const floor = last?.floor ?? scene.height;
  const height = floor + (last && lane.before.length > 0 ? last.floor - last.top : 0) * REFLECTED + 4;
  const instant = effect.tonight && now.value > scene.stretch.from && now.value < scene.stretch.to ? now.value : null;
  return (
    <svg
      class="drawing"
      width={scene.width}
      height={height}
      viewBox={`0 0 ${scene.width} ${height}`}
      aria-hidden="true"
    >
      {twilight(scene, effect.clockData).map(({ piece, depth }) => (
        <rect key={`${piece.x}-${depth}`} class={`twilight-${depth}`} y={22} height={height - 22} {...piece} />
      ))}
      <Axis scene={{ ...scene, height }} clock={effect.clock} instant={instant} wide={wide} />
      {scene.lanes.map((one) => (
        <LaneGround key={one.lane.supply} lane={one} scene={scene} night={lane.night} wide={wide} />
      ))}
      {scene.blocks.map((block) => (
        <StillBlock
          key={block.key}
          block={block}
          document={effect.document}
          past={instant !== null && block.run.end <= instant}
        />
      ))}
      {scene.blocks.map((block) => (
        <Label
          key={block.key}
          block={block}
          night={lane.night}
          past={instant !== null && block.run.end <= instant}
          wide={wide}
          mirrored={mirrored}
        />
      ))}
      <MissingBlocks scene={scene} night={lane.night} wide={wide} />
      <NowLine scene={scene} night={lane.night} instant={instant} wide={wide} mirrored={mirrored} />
      {last && lane.before.length > 0 ? (
        <Reflection
          lane={lane}
          scene={scene}
          under={last}
          finish={effect.comparison.before.finish}
          mirrored={mirrored}
          name={beforeName ?? t("before")}
        />
      ) : null}
      <LaneNames scene={scene} mirrored={mirrored} />
      {scene.blocks
        .filter((block) => block.run.turn === turn)
        .map((block) => (
          <path key={block.key} class="selected-frame" d={outline(block.pieces)} />
        ))}
    </svg>
  );
}

function StillBlock({ block, document, past }: { block: Block; document: SiteDocument; past: boolean }) {
  const program = block.run.program ? document.programs.get(block.run.program) : undefined;
  const look = program ? lookOf(program.place) : ASKED_LOOK;
  return (
    <g class={`hue-${look.hue}${past ? " block-past" : ""}`}>
      <path class="block-fill" d={outline(block.pieces)} fill={`url(#${fillName(look)})`} />
    </g>
  );
}

interface ReflectionProps {
  lane: LaneAfter;
  scene: Scene;
  under: LaneScene;
  finish: number | null;
  mirrored: boolean;
  name: string;
}

function Reflection({ lane, scene, under, finish, mirrored, name }: ReflectionProps) {
  const depth = (under.floor - under.top) * REFLECTED;
  const here = finish !== null && lane.before.some((run) => run.end === finish);
  const x = here ? scene.x(finish) : null;
  return (
    <g class="reflection">
      <path class="reflection-water" d={reflectionPath(lane.before, scene, under.floor)} />
      {x === null ? null : <path class="reflection-finish" d={`M${x} ${under.floor}V${under.floor + depth}`} />}
      <text class="reflection-name" x={mirrored ? 0 : scene.width} y={under.floor + depth - 2}>
        {name}
      </text>
    </g>
  );
}
