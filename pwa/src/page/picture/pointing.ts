/** Which run a tap or a key means. Blocks can be thin and gloves are thick: the nearest one within reach counts. */

import type { Piece } from "./outline";
import type { Block, Scene } from "./scene";

/** Half of a 56 px target. */
const REACH_PX = 28;

/** The key of the block meant by a tap; a second tap on it, or one far from all, lets go. */
export function nearestBlock(
  scene: Pick<Scene, "blocks">,
  tap: { x: number; y: number },
  now: string | null,
): string | null {
  let best: { key: string; away: number } | null = null;
  for (const block of scene.blocks) {
    const away = Math.min(...block.pieces.map((piece) => distance(piece, tap)));
    if (away <= REACH_PX && (best === null || away < best.away)) best = { key: block.key, away };
  }
  return best === null || best.key === now ? null : best.key;
}

/** The supply of the lane whose name stands at this height. */
export function laneNamedAt(scene: Pick<Scene, "lanes">, y: number): string | undefined {
  return scene.lanes.find((lane) => y >= lane.nameY - NAME_UP_PX && y <= lane.nameY + NAME_DOWN_PX)?.lane.supply;
}

/** A name's letters, and the air above and below them that belongs to no block. */
const NAME_UP_PX = 24;
const NAME_DOWN_PX = 5;

function distance({ x, y, width, height }: Piece, tap: { x: number; y: number }): number {
  const across = Math.max(x - tap.x, 0, tap.x - x - width);
  const down = Math.max(y - tap.y, 0, tap.y - y - height);
  return Math.hypot(across, down);
}

/** The run that a key leads to: along time with left and right, between lanes with up and down. Undefined: not our key. */
export function nextKey(
  scene: Pick<Scene, "blocks">,
  now: string | null,
  key: string,
  mirrored: boolean,
): string | null | undefined {
  const { blocks } = scene;
  const index = blocks.findIndex((block) => block.key === now);
  const forward = mirrored ? "ArrowLeft" : "ArrowRight";
  const back = mirrored ? "ArrowRight" : "ArrowLeft";
  if (key === "Escape") return null;
  if (key === "Home") return blocks[0]?.key;
  if (key === "End") return blocks[blocks.length - 1]?.key;
  if (key === forward) return blocks[Math.min(blocks.length - 1, index + 1)]?.key;
  if (key === back) return blocks[Math.max(0, index - 1)]?.key;
  if (key === "ArrowDown" || key === "ArrowUp") return otherLane(blocks, blocks[index], key === "ArrowDown" ? 1 : -1);
  return undefined;
}

/** The run in the next lane that starts nearest to this one. */
function otherLane(blocks: readonly Block[], from: Block | undefined, down: number): string | undefined {
  if (!from) return blocks[0]?.key;
  const there = blocks.filter((block) => block.lane === from.lane + down);
  const away = (block: Block) => Math.abs(block.run.start - from.run.start);
  return there.reduce<Block | undefined>((best, block) => (best && away(best) <= away(block) ? best : block), undefined)
    ?.key;
}
