/** Water that did not fit, dashed and true to size, past the hours in which it could have flowed. */

import type { LoadedNight } from "../night/night";
import { volume } from "../words/units";
import { widthOf } from "./labels";
import type { Scene } from "./scene";

export function MissingBlocks({ scene, night, wide }: { scene: Scene; night: LoadedNight; wide: boolean }) {
  return (
    <g class="missing">
      {scene.missing.map(({ shortfall, piece }) => {
        const number = night.document.stations.get(shortfall.station)?.number ?? "";
        const amount = volume(shortfall.volume_l);
        const room = wide && piece.height >= 34 && piece.width >= Math.max(widthOf(number), widthOf(amount)) + 8;
        const middle = piece.x + piece.width / 2;
        return (
          <g key={shortfall.turn}>
            <rect class="missing-edge" {...inset(piece)} rx="2" />
            {room ? (
              <>
                <text class="missing-text" x={middle} y={piece.y + piece.height / 2 - 3}>
                  {number}
                </text>
                <text class="missing-text" x={middle} y={piece.y + piece.height / 2 + 13}>
                  {amount}
                </text>
              </>
            ) : null}
          </g>
        );
      })}
    </g>
  );
}

function inset({ x, y, width, height }: { x: number; y: number; width: number; height: number }) {
  return { x: x + 1, y: y + 1, width: Math.max(1, width - 2), height: Math.max(1, height - 2) };
}
