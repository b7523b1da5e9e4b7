/** Which way a finger went over the picture: a quick, level stroke turns to the night before or after. */

export interface Stroke {
  x: number;
  y: number;
  at: number;
}

const LEAST_PX = 56;
const LONGEST_MS = 1500;
/** Steeper strokes scroll the page. */
const LEVEL = 1.8;

/** How many nights the stroke turns: 1 forward, -1 back, 0 none. Time runs the other way in right-to-left. */
export function nightsSwiped(from: Stroke, to: Stroke, mirrored: boolean): -1 | 0 | 1 {
  const [across, down] = [to.x - from.x, to.y - from.y];
  if (Math.abs(across) < LEAST_PX || Math.abs(across) < LEVEL * Math.abs(down)) return 0;
  if (to.at - from.at > LONGEST_MS) return 0;
  return across < 0 === mirrored ? -1 : 1;
}
