/** Soaks: the rest between two cycles of one turn, drawn as a tie from the foot of one to the foot of the next. */

import type { Piece } from "./outline";
import type { Block, Scene } from "./scene";

export interface Tie {
  key: string;
  turn: string;
  from: { x: number; y: number };
  to: { x: number; y: number };
}

/** More ties than this would tangle: then only those of the turn somebody looks at are drawn. */
const MOST_TIES = 24;

export function tiesOf(scene: Pick<Scene, "blocks">, mirrored: boolean): Tie[] {
  const byTurn = new Map<string, Block[]>();
  for (const block of scene.blocks) byTurn.set(block.run.turn, [...(byTurn.get(block.run.turn) ?? []), block]);
  return [...byTurn.values()].flatMap((blocks) => tiesOfTurn(blocks, mirrored));
}

function tiesOfTurn(blocks: readonly Block[], mirrored: boolean): Tie[] {
  const cycles = [...blocks].sort((a, b) => a.run.cycle - b.run.cycle);
  return cycles.slice(1).flatMap((block, index) => {
    const before = cycles[index];
    const from = before && corner(before.pieces, !mirrored);
    const to = corner(block.pieces, mirrored);
    return from && to ? [{ key: block.key, turn: block.run.turn, from, to }] : [];
  });
}

/** The foot of a block at its right or its left edge. */
function corner(pieces: readonly Piece[], right: boolean): { x: number; y: number } | undefined {
  const piece = right ? pieces[pieces.length - 1] : pieces[0];
  return piece && { x: right ? piece.x + piece.width : piece.x, y: piece.y + piece.height };
}

/** The ties that are drawn: all of them where they are few and there is room, else those of one turn. */
export function shownTies(ties: readonly Tie[], wide: boolean, turn: string | undefined): Tie[] {
  if (wide && ties.length <= MOST_TIES) return [...ties];
  return ties.filter((tie) => tie.turn === turn);
}

/** How far a tie hangs down. */
const SAG_PX = 13;

export function tiePath({ from, to }: Tie): string {
  const low = Math.max(from.y, to.y) + SAG_PX;
  const third = (to.x - from.x) / 3;
  return `M${at(from.x)} ${at(from.y)}C${at(from.x + third)} ${at(low)} ${at(to.x - third)} ${at(low)} ${at(to.x)} ${at(to.y)}`;
}

function at(value: number): number {
  return Math.round(value * 10) / 10;
}
