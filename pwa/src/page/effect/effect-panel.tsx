/** What changes would do to a night, before they are kept: worked out here, and shown. */

import { useEffect } from "preact/hooks";
import type { Change } from "../store/shapes";
import type { EffectState } from "./effect";
import { EffectView } from "./effect-view";
import { nightTitle } from "./phrases";
import { useEffectOf } from "./watching";

interface EffectPanelProps {
  changes: readonly Change[];
  /** A date; left out, the first night in which what is changed runs. */
  night?: string | null | undefined;
  /** What stands over the figures instead of `Tonight with this change`, for that night. */
  title?: ((night: string, tonight: boolean) => string) | undefined;
  /** The turn whose runs are framed in the picture. */
  turn?: string | null | undefined;
  /** Told how far the effect is: a form shows faults at its own fields then, and the finish beside its buttons. */
  onState?: ((state: EffectState) => void) | undefined;
}

export function EffectPanel({ changes, night = null, title = nightTitle, turn = null, onState }: EffectPanelProps) {
  const state = useEffectOf(changes, night);
  useEffect(() => {
    onState?.(state);
  }, [state]);
  return (
    <EffectView state={state} changes={changes} title={title} turn={turn} faultsElsewhere={onState !== undefined} />
  );
}
