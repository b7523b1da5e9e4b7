/** One thing being done on the server: whether it is on its way, and what the server said against it. */

import { useState } from "preact/hooks";
import { LineFault } from "../line/fetching";
import { t } from "../words/catalogue";

export interface Doing {
  busy: boolean;
  fault: LineFault | null;
  /** Resolves to whether it was done. */
  run(act: () => Promise<unknown>): Promise<boolean>;
}

export function useDoing(): Doing {
  const [state, setState] = useState<{ busy: boolean; fault: LineFault | null }>({ busy: false, fault: null });
  const run = async (act: () => Promise<unknown>) => {
    setState({ busy: true, fault: null });
    try {
      await act();
      setState({ busy: false, fault: null });
      return true;
    } catch (error) {
      const fault = error instanceof LineFault ? error : null;
      setState({ busy: false, fault });
      if (!fault) throw error;
      return false;
    }
  };
  return { ...state, run };
}

/** In words: what the server said, or that there is no line to it. Nothing that was typed is lost either way. */
export function faultWords(fault: LineFault): string {
  if (fault.detail) return fault.detail;
  return fault.status
    ? t("The server could not do that. Try again.")
    : t("This needs signal. The server does not answer.");
}

/** What the server said of one field. */
export function fieldFault(fault: LineFault | null, field: string): string | null {
  return fault?.fields.find((one) => one.field === field)?.detail ?? null;
}
