/** The wetting between the cans, their figures on it: five bands around the mean, each with a pattern of its own. */

import { useWidth } from "../../ahead/use-width";
import { t } from "../../words/catalogue";
import { percent } from "./can-words";
import type { Can, Extent } from "./grid";
import type { Measure } from "./measure";
import { BAND_ENDS, BANDS, type Depth, pathOf, stretchesOf } from "./shading";

interface WettingPictureProps {
  cans: readonly Can[];
  extent: Extent;
  measure: Measure;
  /** Places of the lowest quarter; empty where it is not known. */
  lowest: readonly { column: number; row: number }[];
}

/** What stands beside the drawing within its ground. */
const EDGE = 12;
const LEAST_STEP = 50;
const MOST_STEP = 88;
/** From drier to wetter the level lines stand closer together. */
const LINES_APART = [0, 16, 9, 5.5, 3.5] as const;

export function WettingPicture({ cans, extent, measure, lowest }: WettingPictureProps) {
  const { ref, width } = useWidth<HTMLElement>();
  const depths = cans.flatMap((can): Depth[] => (can.catch === null ? [] : [{ ...can, mm: can.catch }]));
  const step = Math.min(MOST_STEP, Math.max(LEAST_STEP, Math.floor((width - EDGE) / extent.columns)));
  const size = { width: extent.columns * step, height: extent.rows * step };
  const stretches = stretchesOf(depths, extent);
  return (
    <figure class="wetting">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a wide ground scrolls sideways, by keys too. */}
      <section class="wetting-ground" dir="ltr" ref={ref} aria-label={t("Picture of the wetting")} tabIndex={0}>
        <svg
          {...size}
          viewBox={`0 0 ${size.width} ${size.height}`}
          role="img"
          aria-label={t("Picture of the wetting; the table has the same figures")}
        >
          <Bands />
          <rect {...size} class="wetting-none" />
          {Array.from({ length: BANDS }, (_, band) => (
            <path key={band} d={pathOf(stretches, band, step)} fill={`url(#wet-${band})`} />
          ))}
          {cans.map((can) => (
            <CanPlate
              key={can.id}
              can={can}
              step={step}
              measure={measure}
              low={lowest.some((one) => one.column === can.column && one.row === can.row)}
            />
          ))}
        </svg>
      </section>
      <Keys />
    </figure>
  );
}

function Bands() {
  return (
    <defs>
      {LINES_APART.map((apart, band) => (
        <pattern key={apart} id={`wet-${band}`} width="8" height={apart || 8} patternUnits="userSpaceOnUse">
          <rect width="8" height={apart || 8} class={`wet wet-${band}`} />
          {apart ? <path d={`M0 ${apart / 2}H8`} class="wet-line" /> : null}
        </pattern>
      ))}
    </defs>
  );
}

const PLATE = { width: 44, height: 24 };

function CanPlate({ can, step, measure, low }: { can: Can; step: number; measure: Measure; low: boolean }) {
  const [x, y] = [(can.column + 0.5) * step, (can.row + 0.5) * step];
  return (
    <g>
      <rect
        x={x - PLATE.width / 2}
        y={y - PLATE.height / 2}
        {...PLATE}
        rx="3"
        class={low ? "wet-plate wet-plate-low" : "wet-plate"}
      />
      <text x={x} y={y + 5} class="wet-figure">
        {can.catch === null ? "·" : measure.write(can.catch)}
      </text>
    </g>
  );
}

function Keys() {
  return (
    <figcaption class="wetting-keys">
      <ul>
        {Array.from({ length: BANDS }, (_, band) => (
          <li key={band}>
            <svg width="28" height="28" aria-hidden="true">
              <rect width="28" height="28" rx="3" fill={`url(#wet-${band})`} class="wet-key" />
            </svg>
            <span>{bandWords(band)}</span>
          </li>
        ))}
        <li>
          <svg width="28" height="28" aria-hidden="true">
            <rect x="2" y="5" width="24" height="18" rx="3" class="wet-plate wet-plate-low" />
          </svg>
          <span>{t("can of the driest quarter")}</span>
        </li>
      </ul>
    </figcaption>
  );
}

function bandWords(band: number): string {
  const [from, until] = [BAND_ENDS[band - 1], BAND_ENDS[band]];
  if (from === undefined) return t("below {share} of the mean", { share: percent(until ?? 0) });
  if (until === undefined) return t("above {share} of the mean", { share: percent(from) });
  return t("{least} to {most} of the mean", { least: percent(from), most: percent(until) });
}
