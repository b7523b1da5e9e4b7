/** A screen drawn in several paints: what matters first is there before the rest is made. */

import { useEffect, useState } from "preact/hooks";

/** Counts the paints since a component was first shown, from 0 up to `last`; each waits until the one before is seen. */
export function usePaints(last: number): number {
  const [paints, count] = useState(0);
  useEffect(() => {
    if (paints >= last) return;
    return afterPaint(() => count(paints + 1));
  }, [paints, last]);
  return paints;
}

/** A page nobody sees is not painted: it goes on all the same. */
const UNSEEN_MS = 100;

function afterPaint(then: () => void): () => void {
  let timer = setTimeout(then, UNSEEN_MS);
  const frame = requestAnimationFrame(() => {
    clearTimeout(timer);
    timer = setTimeout(then);
  });
  return () => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
  };
}
