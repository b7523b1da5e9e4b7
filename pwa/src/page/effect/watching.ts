/** Lets a component follow the effect of the changes it is given. */

import { useSignal } from "@preact/signals";
import { useEffect, useMemo } from "preact/hooks";
import type { Change } from "../store/shapes";
import { type EffectState, watchEffect } from "./effect";

export function useEffectOf(changes: readonly Change[], night: string | null): EffectState {
  const asked = useSignal<readonly Change[]>(changes);
  const on = useSignal<string | null>(night);
  const watched = useMemo(() => watchEffect(asked, on), [asked, on]);
  const written = JSON.stringify(changes);
  useEffect(() => {
    asked.value = changes;
    // The same changes in a new list are no reason to work anything out again.
  }, [written]);
  useEffect(() => {
    on.value = night;
  }, [night]);
  useEffect(() => watched.stop, [watched]);
  return watched.state.value;
}
