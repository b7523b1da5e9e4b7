/** One thing being done about an alarm: whether it is under way, and why it could not be done. */

import { useState } from "preact/hooks";
import { KeepFault } from "../edits/fault";
import { LineFault } from "../line/fetching";
import { faultWords } from "../more/doing";
import { keepFaultWords } from "../records/fault-words";
import { type Act, act } from "./acting";

export interface Acting {
  busy: boolean;
  fault: string;
  /** Resolves to whether it was done. */
  run(alarm: string, what: Act): Promise<boolean>;
}

export function useActing(): Acting {
  const [state, setState] = useState({ busy: false, fault: "" });
  const run = async (alarm: string, what: Act) => {
    setState({ busy: true, fault: "" });
    try {
      await act(alarm, what);
      setState({ busy: false, fault: "" });
      return true;
    } catch (fault) {
      setState({ busy: false, fault: wordsOf(fault) });
      return false;
    }
  };
  return { ...state, run };
}

function wordsOf(fault: unknown): string {
  if (fault instanceof KeepFault) return keepFaultWords(fault.why);
  if (fault instanceof LineFault) return faultWords(fault);
  throw fault;
}
