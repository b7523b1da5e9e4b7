/** One night as a silhouette: the draw of each supply, stacked; closures hatched; the seam where the clock changes. */

import type { Run } from "../night/sheet";
import { freeStretch } from "../picture/axis";
import { fillName, lookOf } from "../picture/programs";
import type { Program } from "../site/document";
import { type AheadNight, closedInFree } from "./almanac";
import type { Outlook } from "./outlook";
import { type Ground, shadeName } from "./shades";
import { type Box, bandPath, limitOf, type Measure, moments, xOf } from "./silhouette";

export const TALL = 52;
const RIBBON = 6;
const HEAD = 9;

interface SilhouetteProps {
  night: AheadNight;
  outlook: Outlook;
  width: number;
  mirrored: boolean;
  ground: Ground;
  /** The one whose draw is shown before the pale one of the whole site. */
  program?: Program | undefined;
}

export function Silhouette({ night, outlook, width, mirrored, ground, program }: SilhouetteProps) {
  const box = { width, height: TALL, mirrored };
  const { measure, groups } = outlook;
  const limit = limitOf(groups);
  const x = (instant: number) => xOf(instant - night.sheet.starts, measure, box);
  const free = freeStretch(night.sheet);
  return (
    <svg class={`silhouette on-${ground}`} width={width} height={HEAD + TALL + 1} aria-hidden="true">
      <Closed night={night} x={x} ground={ground} width={width} />
      <g transform={`translate(0 ${HEAD})`}>
        {limit ? <path class="silhouette-limit" d={`M0 ${TALL * (1 - limit / measure.fullLpm)}H${width}`} /> : null}
        {program ? (
          <Alone night={night} program={program} measure={measure} box={box} outlook={outlook} />
        ) : (
          <Bands runs={night.sheet.runs} night={night} outlook={outlook} box={box} ground={ground} />
        )}
        <path class="silhouette-floor" d={`M0 ${TALL}H${width}`} />
      </g>
      {night.clock.changes.map((change) => (
        <path key={change.at} class="silhouette-seam" d={`M${x(change.at) - 2} 0V${HEAD + TALL}m4 0V0`} />
      ))}
      <path class="silhouette-edge" d={`M${x(free.from)} 0V${HEAD + TALL}M${x(free.to)} 0V${HEAD + TALL}`} />
    </svg>
  );
}

interface BandsProps {
  runs: readonly Run[];
  night: AheadNight;
  outlook: Outlook;
  box: Box;
  ground: Ground;
}

function Bands({ runs, night, outlook, box, ground }: BandsProps) {
  const found = moments(night.sheet, runs, outlook.groups);
  return (
    <>
      {outlook.groups.map((group, index) => (
        <path
          key={group.supply}
          class={`band shade-${index}`}
          d={bandPath(found, index, outlook.measure, box)}
          fill={`url(#${shadeName(index, ground)})`}
        />
      ))}
    </>
  );
}

interface AloneProps {
  night: AheadNight;
  program: Program;
  outlook: Outlook;
  measure: Measure;
  box: Box;
}

/** A program by itself, in its own colour and pattern, before the outline of all that flows. */
function Alone({ night, program, outlook, measure, box }: AloneProps) {
  const one = [{ supplies: new Set(outlook.document.supplies.keys()) }];
  const all = moments(night.sheet, night.sheet.runs, one);
  const mine = night.sheet.runs.filter((run) => run.program === program.id);
  const look = lookOf(program.place);
  return (
    <>
      <path class="band-all" d={bandPath(all, 0, measure, box)} />
      <path
        class={`band-own hue-${look.hue}`}
        d={bandPath(moments(night.sheet, mine, one), 0, measure, box)}
        fill={`url(#${fillName(look)})`}
      />
    </>
  );
}

interface ClosedProps {
  night: AheadNight;
  x(instant: number): number;
  ground: Ground;
  width: number;
}

/** Where no water may flow at all the whole height is hatched; where a part is shut, a ribbon above. */
function Closed({ night, x, ground, width }: ClosedProps) {
  const free = freeStretch(night.sheet);
  const fill = ground === "slab" ? "url(#hatch)" : "url(#stone-hatch)";
  const whole = night.sheet.closed.filter((span) => span.supply === null && span.whole);
  const some = closedInFree(night.sheet).filter((span) => !(span.supply === null && span.whole));
  const across = (from: number, to: number) => ({ x: Math.min(x(from), x(to)), width: Math.abs(x(to) - x(from)) });
  if (width === 0) return null;
  return (
    <g class="silhouette-closed" fill={fill}>
      {whole.map((span) => (
        <rect key={`${span.start} ${span.end}`} {...across(span.start, span.end)} y={HEAD} height={TALL} />
      ))}
      {some.map((span) => (
        <rect
          key={`${span.closure} ${span.start}`}
          {...across(Math.max(span.start, free.from), Math.min(span.end, free.to))}
          y={0}
          height={RIBBON}
        />
      ))}
    </g>
  );
}
