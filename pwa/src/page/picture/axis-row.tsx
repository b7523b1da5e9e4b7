/** The hours of the site's wall along the top, and where the clock is set forward or back. */

import type { ClockChange, SiteClock } from "../site/clock";
import { hourParts } from "../words/moments";
import { CLEAR_PX, labelled, type Tick } from "./axis";
import { widthOf } from "./labels";
import { leapWords } from "./leaps";
import type { Scene } from "./scene";

interface AxisProps {
  scene: Scene;
  clock: SiteClock;
  instant: number | null;
  wide: boolean;
}

/** Labels keep so far from each other; more where some say which half of the day it is. */
const APART_PX = { bare: 22, halved: 30 };

export function Axis({ scene, clock, instant, wide }: AxisProps) {
  const clear = instant === null ? [] : [scene.x(instant)];
  const inside = (tick: Tick) => scene.x(tick.at) >= 8 && scene.x(tick.at) <= scene.width - 8;
  const halved = hourParts(clock.wall(scene.stretch.from)).half !== "";
  const kind = halved ? "halved" : "bare";
  const labels = labelled(scene.ticks.filter(inside), scene.x, APART_PX[kind], clear, CLEAR_PX[kind]);
  return (
    <g class="axis">
      {scene.ticks.map((tick) => (
        <path key={tick.at} class="hour-line" d={`M${scene.x(tick.at)} 24V${scene.height}`} />
      ))}
      {labels.map((tick) => (
        <text key={tick.at} class="hour" x={scene.x(tick.at)} y={13}>
          {hourLabel(tick.wall) + tick.mark}
        </text>
      ))}
      {clock.changes.map((change) => (
        <Seam key={change.at} x={scene.x(change.at)} height={scene.height} />
      ))}
      {wide ? clock.changes.map((change) => <LeapPlate key={change.at} scene={scene} change={change} />) : null}
    </g>
  );
}

/** In a 12-hour clock only noon, midnight and six say which half of the day it is: there is no room for more. */
function hourLabel(wall: Date): string {
  const { digits, half } = hourParts(wall);
  return half && wall.getUTCHours() % 6 === 0 ? `${digits} ${half}` : digits;
}

/** Above the hours, so that it hides none of them: the drawing keeps room there in a night whose clock leaps. */
function LeapPlate({ scene, change }: { scene: Scene; change: ClockChange }) {
  const text = leapWords(change).short;
  const half = widthOf(text) / 2 + 8;
  const x = Math.min(scene.width - half, Math.max(half, scene.x(change.at)));
  return (
    <g class="leap">
      <rect class="leap-plate" x={x - half} y={-24} width={half * 2} height={20} rx="3" />
      <text class="leap-text" x={x} y={-10}>
        {text}
      </text>
    </g>
  );
}

/** Twin lines, stitched: here the wall leaps. */
export function Seam({ x, height, faint = false }: { x: number; height: number; faint?: boolean }) {
  const stitches = Array.from({ length: Math.floor((height - 18) / 22) }, (_, index) => 28 + index * 22);
  return (
    <g class={faint ? "seam seam-faint" : "seam"}>
      <path d={`M${x - 3} 22V${height}M${x + 3} 22V${height}`} class="seam-line" />
      <path d={stitches.map((y) => `M${x - 5} ${y}L${x + 5} ${y + 9}`).join("")} class="seam-stitch" />
    </g>
  );
}
