/** The room that opens first: tonight, or the night that the address names. */

import { useEffect } from "preact/hooks";
import { ask, TONIGHT } from "../night/night";
import { askedBy, turnTo } from "../night/turning";
import { Screen } from "./screen";

export function Room({ words }: { words: string[] }) {
  const night = askedBy(words);
  useEffect(() => {
    if (night === null) turnTo(TONIGHT);
    else ask(night);
  }, [night]);
  return <Screen />;
}
