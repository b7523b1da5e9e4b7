/** The outline of a block: minutes wide, its flow high, square shoulders and a round base; one outline even when it steps. */

export interface Piece {
  x: number;
  y: number;
  width: number;
  height: number;
}

const ROUND = 4;

/** Pieces stand side by side from left to right and are equally high. */
export function outline(pieces: readonly Piece[]): string {
  const [first] = pieces;
  if (!first) return "";
  return pieces.length === 1 ? rounded(first) : stepped(pieces);
}

function rounded({ x, y, width, height }: Piece): string {
  const round = Math.min(ROUND, width / 2, height / 2);
  const [right, foot] = [x + width, y + height];
  return (
    `M${at(x)} ${at(y)}H${at(right)}V${at(foot - round)}` +
    `A${at(round)} ${at(round)} 0 0 1 ${at(right - round)} ${at(foot)}` +
    `H${at(x + round)}A${at(round)} ${at(round)} 0 0 1 ${at(x)} ${at(foot - round)}Z`
  );
}

function stepped(pieces: readonly Piece[]): string {
  const tops = pieces.map((piece) => `V${at(piece.y)}H${at(piece.x + piece.width)}`);
  const feet = [...pieces].reverse().map((piece) => `V${at(piece.y + piece.height)}H${at(piece.x)}`);
  const [first] = pieces;
  return `M${at(first?.x ?? 0)} ${at(first?.y ?? 0)}${tops.join("")}${feet.join("")}Z`;
}

function at(value: number): string {
  return String(Math.round(value * 100) / 100);
}
