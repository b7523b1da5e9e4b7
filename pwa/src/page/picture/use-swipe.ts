/** Follows a finger over the picture, so that a stroke turns to another night and is no tap. */

import { useRef } from "preact/hooks";
import { nightsSwiped, type Stroke } from "./swipe";

/** A finger that moved so far meant no tap. */
const TAP_PX = 12;

export function useSwipe(mirrored: boolean, onTurn: ((nights: -1 | 1) => void) | null) {
  const from = useRef<Stroke | null>(null);
  const moved = useRef(false);
  return {
    onPointerDown: (event: PointerEvent) => {
      from.current = event.isPrimary ? strokeOf(event) : null;
      moved.current = false;
    },
    onPointerUp: (event: PointerEvent) => {
      const start = from.current;
      from.current = null;
      if (!start || !onTurn) return;
      moved.current = Math.abs(event.clientX - start.x) > TAP_PX;
      const nights = nightsSwiped(start, strokeOf(event), mirrored);
      if (nights !== 0) onTurn(nights);
    },
    onPointerCancel: () => {
      from.current = null;
    },
    onClickCapture: (event: MouseEvent) => {
      if (moved.current) event.stopPropagation();
      moved.current = false;
    },
  };
}

function strokeOf(event: PointerEvent): Stroke {
  return { x: event.clientX, y: event.clientY, at: event.timeStamp };
}
