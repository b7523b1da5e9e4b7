/** The arrow keys turn to the night before and after, Home comes back to tonight; within the picture they lead from run to run. */

import { useEffect } from "preact/hooks";
import { TONIGHT } from "../night/night";
import { askedNight, nightFrom, turnTo } from "../night/turning";
import { catalogue } from "../words/catalogue";

const TYPED_IN = "input, select, textarea, [contenteditable], [role=option], .table-scroll, .picture-lane";

export function useNightKeys(base: string): void {
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
      if (event.target instanceof Element && event.target.closest(TYPED_IN)) return;
      const night = meant(event.key, base);
      if (night === null) return;
      event.preventDefault();
      turnTo(night);
    };
    addEventListener("keydown", listen);
    return () => removeEventListener("keydown", listen);
  }, [base]);
}

function meant(key: string, base: string): string | null {
  if (key === "Home") return TONIGHT;
  const forward = catalogue.peek().direction === "rtl" ? "ArrowLeft" : "ArrowRight";
  if (key === forward) return nightFrom(base, askedNight(base), 1);
  if (key === "ArrowLeft" || key === "ArrowRight") return nightFrom(base, askedNight(base), -1);
  return null;
}
