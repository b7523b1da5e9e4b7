/** Telling the journal what interrupts the night, or that it is over: whether that is under way, and what went wrong. */

import { useState } from "preact/hooks";
import { KeepFault } from "../edits/fault";
import { type Telling, tell } from "../journal/telling";
import { keepFaultWords } from "../records/fault-words";

export interface Saying {
  busy: boolean;
  fault: string;
  /** Resolves to whether it is kept. */
  say(telling: Telling): Promise<boolean>;
}

export function useSaying(): Saying {
  const [state, setState] = useState({ busy: false, fault: "" });
  const say = async (telling: Telling) => {
    setState({ busy: true, fault: "" });
    try {
      await tell(telling);
      setState({ busy: false, fault: "" });
      return true;
    } catch (fault) {
      if (!(fault instanceof KeepFault)) throw fault;
      setState({ busy: false, fault: keepFaultWords(fault.why) });
      return false;
    }
  };
  return { ...state, say };
}
