/** What stands behind a lane's blocks: its limit line and name, and the spans in which it is shut. */

import type { LoadedNight } from "../night/night";
import { closedName } from "../night/reading";
import { t } from "../words/catalogue";
import { flow } from "../words/units";
import { widthOf } from "./labels";
import type { Hatch, LaneScene, Scene } from "./scene";

interface LaneGroundProps {
  lane: LaneScene;
  scene: Scene;
  night: LoadedNight;
  wide: boolean;
  mirrored: boolean;
}

export function LaneGround({ lane, scene, night, wide, mirrored }: LaneGroundProps) {
  const { lane: supply, top, floor, nameY } = lane;
  return (
    <g class="lane">
      {lane.hatches.map((hatch) => (
        <Closed
          key={`${hatch.closure}-${hatch.piece.x}-${hatch.ribbon}`}
          hatch={hatch}
          label={wide ? closedName(night.document, hatch) : ""}
        />
      ))}
      <path class="limit" d={`M0 ${top}H${scene.width}`} />
      <path class="floor" d={`M0 ${floor}H${scene.width}`} />
      <text class="lane-name" x={mirrored ? scene.width : 0} y={nameY}>
        <tspan class="lane-title">{supply.name}</tspan>
        {supply.limitLpm === null ? null : (
          <tspan class="lane-limit" dx={6}>
            {t("limit {flow}", { flow: flow(supply.limitLpm) })}
          </tspan>
        )}
      </text>
    </g>
  );
}

/** Diagonals mean this and nothing else. A name stands on it where it fits whole. */
function Closed({ hatch, label }: { hatch: Hatch; label: string }) {
  const { x, y, width, height } = hatch.piece;
  const room = label !== "" && widthOf(label) + 24 <= width && (hatch.ribbon || height >= 24);
  const middle = x + width / 2;
  const line = hatch.ribbon ? y + 7 : y + height / 2 + 4;
  return (
    <g class="closed">
      <rect {...hatch.piece} fill="url(#hatch)" />
      <path class="closed-edge" d={`M${x} ${y}V${y + height}M${x + width} ${y}V${y + height}`} />
      {room ? (
        <>
          <rect
            class="closed-plate"
            x={middle - widthOf(label) / 2 - 8}
            y={line - 14}
            width={widthOf(label) + 16}
            height={hatch.ribbon ? 15 : 20}
          />
          <text class="closed-name" x={middle} y={line}>
            {label}
          </text>
        </>
      ) : null}
    </g>
  );
}
