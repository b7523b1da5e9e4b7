/** Where the night stands: the line of now under its half bowl, and the flag at the finish. */

import type { LoadedNight } from "../night/night";
import { timeAt } from "../night/reading";
import { t } from "../words/catalogue";
import { widthOf } from "./labels";
import type { Scene } from "./scene";

interface NowLineProps {
  scene: Scene;
  night: LoadedNight;
  instant: number | null;
  wide: boolean;
  mirrored: boolean;
}

export function NowLine({ scene, night, instant, wide, mirrored }: NowLineProps) {
  return (
    <>
      <Finish scene={scene} night={night} wide={wide} mirrored={mirrored} />
      {instant === null ? null : <Now x={scene.x(instant)} time={timeAt(night.clock, instant)} scene={scene} />}
    </>
  );
}

function Now({ x, time, scene }: { x: number; time: string; scene: Scene }) {
  const half = widthOf(time) / 2 + 6;
  return (
    <g class="now">
      <path class="now-line" d={`M${x} 24V${scene.height}`} />
      <path class="now-bowl" d={`M${x - 10} 20H${x + 10}A10 10 0 0 1 ${x - 10} 20Z`} />
      <text class="now-time" x={Math.min(scene.width - half, Math.max(half, x))} y={13}>
        {time}
      </text>
    </g>
  );
}

/** Stands in the lane whose water ends last. */
function Finish({ scene, night, wide, mirrored }: Omit<NowLineProps, "instant">) {
  const { finish } = night.sheet;
  const last = scene.blocks.find((block) => block.run.end === finish);
  const lane = last && scene.lanes[last.lane];
  if (finish === null || !lane) return null;
  const x = scene.x(finish);
  return (
    <g class="finish-flag">
      <path class="finish-line" d={`M${x} ${lane.top}V${lane.floor}`} />
      <path class="finish-head" d={`M${x - 6} ${lane.top - 8}H${x + 6}L${x} ${lane.top}Z`} />
      {wide ? (
        <text class="finish-time" x={mirrored ? x - 9 : x + 9} y={lane.top - 5}>
          {t("Finish {time}", { time: timeAt(night.clock, finish) })}
        </text>
      ) : null}
    </g>
  );
}
