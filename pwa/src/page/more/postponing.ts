/** Acts that cannot be taken back are put off for a few seconds, so that they can be called off instead. */

import { useEffect, useRef, useState } from "preact/hooks";

export const PUT_OFF_MS = 6000;

export interface PutOff {
  waits: boolean;
  start(): void;
  callOff(): void;
}

/** Once started, the act is done after a while, or at once where its screen is left; called off, it never is. */
export function usePutOff(act: () => void): PutOff {
  const [waits, setWaits] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  const latest = useRef(act);
  latest.current = act;
  const stop = () => {
    const ran = timer.current !== null;
    if (timer.current !== null) clearTimeout(timer.current);
    timer.current = null;
    return ran;
  };
  useEffect(
    () => () => {
      if (stop()) latest.current();
    },
    [],
  );
  return {
    waits,
    start: () => {
      stop();
      setWaits(true);
      timer.current = setTimeout(() => {
        timer.current = null;
        setWaits(false);
        latest.current();
      }, PUT_OFF_MS);
    },
    callOff: () => {
      stop();
      setWaits(false);
    },
  };
}
