/** The hours of the site's wall along the top, and where the clock is set forward or back. */

import type { SiteClock } from "../site/clock";
import { hourParts } from "../words/moments";
import { labelled, type Tick } from "./axis";
import type { Scene } from "./scene";

interface AxisProps {
  scene: Scene;
  clock: SiteClock;
  instant: number | null;
}

/** Labels keep so far from each other; more where some say which half of the day it is. */
const APART_PX = { bare: 22, halved: 30 };

export function Axis({ scene, clock, instant }: AxisProps) {
  const clear = instant === null ? [] : [scene.x(instant)];
  const inside = (tick: Tick) => scene.x(tick.at) >= 8 && scene.x(tick.at) <= scene.width - 8;
  const halved = hourParts(clock.wall(scene.stretch.from)).half !== "";
  const labels = labelled(scene.ticks.filter(inside), scene.x, halved ? APART_PX.halved : APART_PX.bare, clear);
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
    </g>
  );
}

/** In a 12-hour clock only noon, midnight and six say which half of the day it is: there is no room for more. */
function hourLabel(wall: Date): string {
  const { digits, half } = hourParts(wall);
  return half && wall.getUTCHours() % 6 === 0 ? `${digits} ${half}` : digits;
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
