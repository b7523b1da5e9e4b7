/** The hours over the list of nights, as an ordinary night has them. A night in which the clock changes marks its own. */

import { hourTicks, labelled } from "../picture/axis";
import { hourParts } from "../words/moments";
import type { AheadNight } from "./almanac";
import type { Outlook } from "./outlook";
import { xOf } from "./silhouette";

const APART_PX = 30;
const TALL = 18;

interface HoursHeadProps {
  outlook: Outlook;
  width: number;
  mirrored: boolean;
}

export function HoursHead({ outlook, width, mirrored }: HoursHeadProps) {
  const { measure } = outlook;
  const night = ordinary(outlook);
  if (!night || width === 0) return null;
  const box = { width, height: TALL, mirrored };
  const x = (instant: number) => xOf(instant - night.sheet.starts, measure, box);
  const stretch = { from: night.sheet.starts + measure.from, to: night.sheet.starts + measure.to };
  const inside = hourTicks(stretch, night.clock).filter((tick) => x(tick.at) >= 14 && x(tick.at) <= width - 14);
  return (
    <svg class="ahead-hours" width={width} height={TALL} aria-hidden="true">
      {labelled(inside, x, APART_PX, []).map((tick) => (
        <text key={tick.at} x={x(tick.at)} y={14}>
          {hourLabel(tick.wall)}
        </text>
      ))}
    </svg>
  );
}

/** One whose clock stays as it is, so that its hours are those of most nights. */
function ordinary(outlook: Outlook): AheadNight | undefined {
  const known = [...outlook.nights.values()];
  return known.find((night) => night.clock.changes.length === 0) ?? known[0];
}

function hourLabel(wall: Date): string {
  const { digits, half } = hourParts(wall);
  return half && wall.getUTCHours() % 6 === 0 ? `${digits} ${half}` : digits;
}
