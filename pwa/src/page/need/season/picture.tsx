/** A hydrozone's days in a picture: rain and watering above, the water in the soil below, and where plants lack it. */

import { useWidth } from "../../ahead/use-width";
import { catalogue, t } from "../../words/catalogue";
import { wallFormat } from "../../words/formats";
import { depth } from "../told/amounts";
import type { SeasonDay } from "../told/shapes";
import {
  type Box,
  barsOf,
  mostDepth,
  placeAt,
  readyPath,
  slotOf,
  stressPaths,
  ticksOf,
  totalOf,
  waterPath,
} from "./geometry";

const BARS = 72;
const SOIL = 150;
const HEAD = 18;
const GAP = 24;
const FOOT = 22;
const ROUND = 12;
const LEAST_APART = 64;

interface PictureProps {
  days: readonly SeasonDay[];
  chosen: number;
  /** What it shows, in words. */
  label: string;
  onChoose: (place: number) => void;
}

export function SeasonPicture({ days, chosen, label, onChoose }: PictureProps) {
  const { ref, width } = useWidth<HTMLDivElement>();
  const mirrored = catalogue.value.direction === "rtl";
  const box = { width, bars: BARS, soil: SOIL };
  const choose = (event: PointerEvent) => {
    const left = ref.current?.getBoundingClientRect().left ?? 0;
    onChoose(placeAt(event.clientX - left, days.length, width, mirrored));
  };
  return (
    <div class="season-picture" ref={ref} onPointerUp={choose}>
      {width > 0 ? (
        <svg width={width} height={HEAD + BARS + GAP + SOIL + FOOT} role="img" aria-label={label}>
          <g transform={mirrored ? `translate(${width} 0) scale(-1 1)` : undefined}>
            <Drawn days={days} box={box} chosen={chosen} />
          </g>
          <Words days={days} box={box} mirrored={mirrored} />
        </svg>
      ) : null}
    </div>
  );
}

function Drawn({ days, box, chosen }: { days: readonly SeasonDay[]; box: Box; chosen: number }) {
  const slot = slotOf(days.length, box);
  const { width } = box;
  return (
    <>
      <SeasonPatterns />
      <rect class="season-chosen" x={chosen * slot} y={HEAD} width={Math.max(slot, 3)} height={BARS + GAP + SOIL} />
      <g transform={`translate(0 ${HEAD})`}>
        <path class="season-scale" d={`M0 0H${width}`} />
        {barsOf(days, "rain_mm", box).map((bar) => (
          <rect key={bar.x} class="season-rain" {...bar} />
        ))}
        {barsOf(days, "applied_mm", box).map((bar) => (
          <rect key={bar.x} class="season-applied" {...bar} />
        ))}
        <path class="season-floor" d={`M0 ${BARS}H${width}`} />
      </g>
      <g transform={`translate(0 ${HEAD + BARS + GAP})`}>
        <clipPath id="season-soil">
          <path d={`${bowlPath(width)}Z`} />
        </clipPath>
        <g clip-path="url(#season-soil)">
          <path class="season-water" d={waterPath(days, box)} />
          {stressPaths(days, box).map((path) => (
            <path key={path} class="season-stress" d={path} fill="url(#season-stress)" />
          ))}
          <path class="season-ready" d={readyPath(days, box)} />
        </g>
        <path class="season-soil" d={`M0 0H${width}${bowlPath(width)}`} />
      </g>
      <rect
        class="season-chosen-edge"
        x={chosen * slot}
        y={HEAD}
        width={Math.max(slot, 3)}
        height={BARS + GAP + SOIL}
      />
    </>
  );
}

/** Square shoulders and a round base, open above. */
function bowlPath(width: number): string {
  return `M0 0V${SOIL - ROUND}Q0 ${SOIL} ${ROUND} ${SOIL}H${width - ROUND}Q${width} ${SOIL} ${width} ${SOIL - ROUND}V0`;
}

/** Upright strokes mean stress, dots mean rain: never colour alone. */
function SeasonPatterns() {
  return (
    <defs>
      <pattern id="season-stress" width="5" height="5" patternUnits="userSpaceOnUse">
        <rect class="season-stress-ground" width="5" height="5" />
        <path class="season-stress-line" d="M2.5 0V5" />
      </pattern>
      <pattern id="season-rain" width="4" height="4" patternUnits="userSpaceOnUse">
        <rect class="season-rain-ground" width="4" height="4" />
        <circle class="season-rain-dot" cx="2" cy="2" r="1" />
      </pattern>
    </defs>
  );
}

function Words({ days, box, mirrored }: { days: readonly SeasonDay[]; box: Box; mirrored: boolean }) {
  const slot = slotOf(days.length, box);
  const { width } = box;
  const x = (along: number) => (mirrored ? width - along : along);
  const soil = HEAD + BARS + GAP;
  return (
    <g class="season-words">
      <text x={x(0)} y={HEAD - 5}>
        {depth(mostDepth(days))}
      </text>
      <text x={x(0)} y={soil - 6}>
        {t("Soil full")}
      </text>
      <text x={x(width - 6)} y={soil + SOIL - 7} class="season-end">
        {t("{depth} lacking", { depth: depth(totalOf(days)) })}
      </text>
      {ticksOf(days, width - LEAST_APART / 2, LEAST_APART).map(({ place, day }) => (
        <g key={day}>
          <path class="season-tick" d={`M${x(place * slot)} ${soil + SOIL}v5`} />
          <text x={x(place * slot)} y={soil + SOIL + FOOT - 4}>
            {wallFormat({ day: "numeric", month: "short" }).format(new Date(`${day}T12:00:00Z`))}
          </text>
        </g>
      ))}
    </g>
  );
}
