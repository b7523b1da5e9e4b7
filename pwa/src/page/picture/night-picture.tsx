/** The night as a picture: flow over time, each run a block whose area is its volume. Tap a block and it says why it is there. */

import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import { type LoadedNight, selected } from "../night/night";
import { VolumeKey } from "../tonight/legend";
import { catalogue, t } from "../words/catalogue";
import { Axis } from "./axis-row";
import { Blocks } from "./blocks";
import { LaneGround, LaneNames } from "./lane-ground";
import { MissingBlocks } from "./missing-blocks";
import { NowLine } from "./now-line";
import { nearestBlock, nextKey } from "./pointing";
import { type Scene, sceneOf, twilight } from "./scene";
import { SelectedFrame } from "./selected-frame";

interface NightPictureProps {
  night: LoadedNight;
  instant: number | null;
  wide: boolean;
}

export function NightPicture({ night, instant, wide }: NightPictureProps) {
  const [box, width] = useWidth();
  const mirrored = catalogue.value.direction === "rtl";
  const scene = useMemo(
    () => (width > 0 ? sceneOf(night.document, night.sheet, night.clock, { width, wide, mirrored }) : null),
    [night, width, wide, mirrored],
  );
  return (
    <div class="picture" ref={box}>
      {scene ? <Drawing night={night} scene={scene} instant={instant} wide={wide} mirrored={mirrored} /> : null}
      {scene ? <VolumeKey pxPerLitre={scene.pxPerLpm * scene.pxPerMinute} /> : null}
    </div>
  );
}

function useWidth() {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return;
    const watch = new ResizeObserver(() => setWidth(Math.floor(element.clientWidth)));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return [box, width] as const;
}

interface DrawingProps extends NightPictureProps {
  scene: Scene;
  mirrored: boolean;
}

function Drawing({ night, scene, instant, wide, mirrored }: DrawingProps) {
  const shown = instant !== null && instant >= scene.stretch.from && instant <= scene.stretch.to ? instant : null;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset
    <svg
      class="drawing"
      role="group"
      aria-label={t("The night as a picture: flow over time, each run a block whose area is its volume")}
      width={scene.width}
      height={scene.height}
      viewBox={`0 0 ${scene.width} ${scene.height}`}
      onClick={(event) => {
        selected.value = nearestBlock(scene, place(event), selected.value);
      }}
      onKeyDown={(event) => step(event, scene, mirrored)}
    >
      {twilight(scene, night.clockData).map(({ piece, depth }) => (
        <rect key={`${piece.x}-${depth}`} class={`twilight-${depth}`} y={22} height={scene.height - 22} {...piece} />
      ))}
      <Axis scene={scene} clock={night.clock} instant={shown} />
      {scene.lanes.map((lane) => (
        <LaneGround key={lane.lane.supply} lane={lane} scene={scene} night={night} wide={wide} />
      ))}
      <Blocks scene={scene} night={night} instant={instant} wide={wide} mirrored={mirrored} />
      <MissingBlocks scene={scene} night={night} wide={wide} />
      <NowLine scene={scene} night={night} instant={shown} wide={wide} mirrored={mirrored} />
      <LaneNames scene={scene} mirrored={mirrored} />
      <SelectedFrame scene={scene} night={night} wide={wide} mirrored={mirrored} />
    </svg>
  );
}

/** Where on the drawing a tap fell, in its own pixels. */
function place(event: MouseEvent): { x: number; y: number } {
  const corner = (event.currentTarget as SVGSVGElement).getBoundingClientRect();
  return { x: event.clientX - corner.left, y: event.clientY - corner.top };
}

function step(event: KeyboardEvent, scene: Scene, mirrored: boolean): void {
  const key = nextKey(scene, selected.value, event.key, mirrored);
  if (key === undefined) return;
  event.preventDefault();
  selected.value = key;
  document.getElementById(`run-${key}`)?.focus();
}
