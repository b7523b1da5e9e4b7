/** What stands behind a lane's blocks: its limit line and name, and the spans in which it is shut. */

import type { LoadedNight } from "../night/night";
import { closedName } from "../night/reading";
import { t } from "../words/catalogue";
import { FIRST_STRONG, POP } from "../words/isolates";
import { flow } from "../words/units";
import { widthOf } from "./labels";
import type { Piece } from "./outline";
import type { Hatch, LaneScene, Scene } from "./scene";

interface LaneGroundProps {
  lane: LaneScene;
  scene: Scene;
  night: LoadedNight;
  wide: boolean;
}

export function LaneGround({ lane, scene, night, wide }: LaneGroundProps) {
  const { top, floor } = lane;
  return (
    <g class="lane">
      {lane.hatches.map((hatch) => (
        <Closed
          key={`${hatch.closure}-${hatch.piece.x}-${hatch.ribbon}`}
          hatch={hatch}
          label={wide ? closedName(night.document, hatch) : ""}
          end={scene.width}
        />
      ))}
      <path class="limit" d={`M0 ${top}H${scene.width}`} />
      <path class="floor" d={`M0 ${floor}H${scene.width}`} />
    </g>
  );
}

interface LaneNamesProps {
  scene: Scene;
  mirrored: boolean;
}

/** Drawn last, so that no line runs through a name. */
export function LaneNames({ scene, mirrored }: LaneNamesProps) {
  return (
    <g class="lane-names">
      {scene.lanes.map((lane) => (
        <LaneName key={lane.lane.supply} lane={lane} x={mirrored ? scene.width : 0} />
      ))}
    </g>
  );
}

function LaneName({ lane: { lane, nameY }, x }: { lane: LaneScene; x: number }) {
  const limit = lane.limitLpm === null ? "" : t("limit {flow}", { flow: flow(lane.limitLpm) });
  return (
    <text class="lane-name" x={x} y={nameY}>
      <tspan class="lane-title">{set(lane.name)}</tspan>
      <tspan class="lane-limit">{` ${set(limit)}`}</tspan>
    </text>
  );
}

/** In a drawing nothing but the isolates themselves keeps two directions apart. */
function set(text: string): string {
  return `${FIRST_STRONG}${text}${POP}`;
}

/** Diagonals mean this and nothing else. A name stands on it where it fits whole. */
function Closed({ hatch, label, end }: { hatch: Hatch; label: string; end: number }) {
  const { x, y, width, height } = hatch.piece;
  return (
    <g class="closed">
      <rect {...hatch.piece} fill="url(#hatch)" />
      <path class="closed-edge" d={`M${x} ${y}V${y + height}M${x + width} ${y}V${y + height}`} />
      {hatch.ribbon ? (
        <RibbonName piece={hatch.piece} label={label} end={end} />
      ) : (
        <HatchName piece={hatch.piece} label={label} />
      )}
    </g>
  );
}

function HatchName({ piece, label }: { piece: Piece; label: string }) {
  const width = widthOf(label) + 16;
  if (!label || width + 8 > piece.width || piece.height < 24) return null;
  const [x, y] = [piece.x + piece.width / 2, piece.y + piece.height / 2];
  return (
    <>
      <rect class="closed-plate" x={x - width / 2} y={y - 10} width={width} height={20} />
      <text class="closed-name" x={x} y={y + 4}>
        {label}
      </text>
    </>
  );
}

/** On the ribbon if it is long enough, else behind its end, if there is room. */
function RibbonName({ piece, label, end }: { piece: Piece; label: string; end: number }) {
  const width = widthOf(label) + 12;
  const inside = width + 16 <= piece.width;
  const x = inside ? piece.x + piece.width / 2 : piece.x + piece.width + width / 2;
  if (!label || x + width / 2 > end) return null;
  const y = piece.y + piece.height / 2;
  return (
    <>
      {inside ? <rect class="closed-plate" x={x - width / 2} y={y - 7} width={width} height={14} /> : null}
      <text class="closed-name" x={x} y={y + 4}>
        {label}
      </text>
    </>
  );
}
