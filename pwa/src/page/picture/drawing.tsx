/** The drawing itself: ground, lanes, blocks, ties, now. A tap or the arrow keys choose a run in it. */

import { useMemo } from "preact/hooks";
import { holdingChain } from "../night/chain";
import { type LoadedNight, selected } from "../night/night";
import { valvesTold } from "../store/queries";
import { later } from "../way/later";
import { t } from "../words/catalogue";
import { Axis } from "./axis-row";
import { Blocks } from "./blocks";
import { LaneGround, LaneNames } from "./lane-ground";
import { MissingBlocks } from "./missing-blocks";
import { NowLine } from "./now-line";
import { laneNamedAt, nearestBlock, nextKey } from "./pointing";
import { type Scene, twilight } from "./scene";
import { SelectedFrame } from "./selected-frame";
import { Ties } from "./tie-lines";

const RanLayer = later(() => import("../journal/ran-layer").then((file) => file.RanLayer));

interface DrawingProps {
  night: LoadedNight;
  scene: Scene;
  instant: number | null;
  wide: boolean;
  mirrored: boolean;
  /** A lane alone has its name above the drawing. */
  named: boolean;
  /** A lane's name was tapped; null where lanes do not open. */
  onLane: ((supply: string) => void) | null;
}

export function Drawing({ night, scene, instant, wide, mirrored, named, onLane }: DrawingProps) {
  const shown = instant !== null && instant >= scene.stretch.from && instant <= scene.stretch.to ? instant : null;
  const chain = useMemo(() => holdingChain(night.sheet, night.document), [night]);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset
    <svg
      class={`drawing${wide && night.clock.changes.length > 0 ? " drawing-changing" : ""}`}
      role="group"
      aria-label={t("The night as a picture: flow over time, each run a block whose area is its volume")}
      width={scene.width}
      height={scene.height}
      viewBox={`0 0 ${scene.width} ${scene.height}`}
      onClick={(event) => point(event, scene, onLane)}
      onKeyDown={(event) => step(event, scene, mirrored)}
    >
      {twilight(scene, night.clockData).map(({ piece, depth }) => (
        <rect key={`${piece.x}-${depth}`} class={`twilight-${depth}`} y={22} height={scene.height - 22} {...piece} />
      ))}
      <Axis scene={scene} clock={night.clock} instant={shown} wide={wide} />
      {scene.lanes.map((lane) => (
        <LaneGround key={lane.lane.supply} lane={lane} scene={scene} night={night} wide={wide} />
      ))}
      <Blocks scene={scene} night={night} instant={instant} wide={wide} mirrored={mirrored} chain={chain} />
      {valvesTold.value ? <RanLayer scene={scene} /> : null}
      <Ties scene={scene} wide={wide} mirrored={mirrored} />
      <MissingBlocks scene={scene} night={night} wide={wide} />
      <NowLine scene={scene} night={night} instant={shown} wide={wide} mirrored={mirrored} />
      {named ? <LaneNames scene={scene} mirrored={mirrored} /> : null}
      <SelectedFrame scene={scene} night={night} wide={wide} mirrored={mirrored} />
    </svg>
  );
}

function point(event: MouseEvent, scene: Scene, onLane: DrawingProps["onLane"]): void {
  const corner = (event.currentTarget as SVGSVGElement).getBoundingClientRect();
  const tap = { x: event.clientX - corner.left, y: event.clientY - corner.top };
  const lane = onLane ? laneNamedAt(scene, tap.y) : undefined;
  if (onLane && lane) onLane(lane);
  else selected.value = nearestBlock(scene, tap, selected.value);
}

function step(event: KeyboardEvent, scene: Scene, mirrored: boolean): void {
  const key = nextKey(scene, selected.value, event.key, mirrored);
  if (key === undefined) return;
  // Outside the picture the same keys turn to another night.
  event.preventDefault();
  event.stopPropagation();
  selected.value = key;
  document.getElementById(`run-${key}`)?.focus();
}
