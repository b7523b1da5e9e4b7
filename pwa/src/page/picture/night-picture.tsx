/** The night as a picture: flow over time, each run a block whose area is its volume. Tap a block and it says why it is there. */

import { useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { LoadedNight } from "../night/night";
import { catalogue, t } from "../words/catalogue";
import { flow } from "../words/units";
import { Drawing } from "./drawing";
import { Keys } from "./keys";
import { LanePicker } from "./lane-picker";
import { lanesOf } from "./lanes";
import { type Scene, sceneOf } from "./scene";
import { useSwipe } from "./use-swipe";

interface NightPictureProps {
  night: LoadedNight;
  instant: number | null;
  wide: boolean;
  /** Another night is asked for with a stroke over the picture: so many nights on. */
  onTurn(nights: -1 | 1): void;
}

export function NightPicture({ night, instant, wide, onTurn }: NightPictureProps) {
  const [box, width] = useWidth();
  const [chosen, choose] = useState<string | null>(null);
  const mirrored = catalogue.value.direction === "rtl";
  const lanes = useMemo(() => lanesOf(night.document, night.sheet), [night]);
  const only = !wide && lanes.length > 1 && lanes.some((lane) => lane.supply === chosen) ? chosen : null;
  const scene = useMemo(
    () => (width > 0 ? sceneOf(night.document, night.sheet, night.clock, { width, wide, mirrored, only }) : null),
    [night, width, wide, mirrored, only],
  );
  const swipe = useSwipe(mirrored, only === null ? onTurn : null);
  const scroller = useFollowedNow(scene, only, instant, mirrored);
  return (
    <div class="picture" ref={box}>
      {only && scene ? <LaneCaption scene={scene} /> : null}
      <div class={only ? "picture-lane" : "picture-whole"} ref={scroller} {...swipe}>
        {scene ? (
          <Drawing
            night={night}
            scene={scene}
            instant={instant}
            wide={wide || only !== null}
            mirrored={mirrored}
            named={only === null}
            onLane={wide || only ? null : choose}
          />
        ) : null}
      </div>
      {wide || lanes.length < 2 ? null : <LanePicker lanes={lanes} only={only} onChoose={choose} />}
      {scene ? <Keys night={night} scene={scene} /> : null}
    </div>
  );
}

/** Its name would scroll away with the hours. */
function LaneCaption({ scene }: { scene: Scene }) {
  const lane = scene.lanes[0]?.lane;
  if (!lane) return null;
  return (
    <p class="lane-caption">
      <bdi class="lane-title">{lane.name}</bdi>{" "}
      {lane.limitLpm === null ? "" : t("limit {flow}", { flow: flow(lane.limitLpm) })}
    </p>
  );
}

function useWidth() {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return;
    const measure = () => setWidth(Math.floor(element.clientWidth));
    // Before the first paint: what stands below would jump otherwise.
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return [box, width] as const;
}

/** A lane that is wider than the screen opens where the night stands. */
function useFollowedNow(scene: Scene | null, only: string | null, instant: number | null, mirrored: boolean) {
  const scroller = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const element = scroller.current;
    if (!element || !scene || only === null) return;
    const first = scene.blocks[0]?.run.start ?? scene.stretch.from;
    const x = scene.x(instant ?? first);
    const seen = element.clientWidth;
    // In right-to-left a browser counts from the right edge, downwards from zero.
    element.scrollLeft = mirrored ? x - (seen * 2) / 3 - (scene.width - seen) : x - seen / 3;
  }, [only, scene?.width]);
  return scroller;
}
