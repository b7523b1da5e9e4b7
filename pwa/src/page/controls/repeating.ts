/** A button that is held goes on: the first step on release or after a moment, then faster than a thumb. */

import { useEffect, useRef } from "preact/hooks";

const FIRST_MS = 450;
const NEXT_MS = 110;

export interface Repeating {
  onPointerDown: (event: PointerEvent) => void;
  onPointerUp: () => void;
  onPointerLeave: () => void;
  onPointerCancel: () => void;
  onClick: () => void;
  onContextMenu: (event: Event) => void;
}

/** The handlers of a button that acts once on release, and again and again while it is held. */
export function useRepeating(act: () => void): Repeating {
  const latest = useRef(act);
  latest.current = act;
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  const repeated = useRef(false);
  const stop = () => {
    if (timer.current !== null) clearTimeout(timer.current);
    timer.current = null;
  };
  const again = () => {
    repeated.current = true;
    latest.current();
    timer.current = setTimeout(again, NEXT_MS);
  };
  useEffect(() => stop, []);
  return {
    onPointerDown: (event) => {
      if (event.button !== 0) return;
      repeated.current = false;
      timer.current = setTimeout(again, FIRST_MS);
    },
    onPointerUp: stop,
    onPointerLeave: stop,
    onPointerCancel: stop,
    onClick: () => {
      if (!repeated.current) latest.current();
      repeated.current = false;
    },
    // A long press asks a phone for its menu, which would end the press.
    onContextMenu: (event) => event.preventDefault(),
  };
}
