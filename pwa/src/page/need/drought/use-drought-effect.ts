/** What drought rules do to tonight: to its runs, and to each hydrozone's need. */

import { useMemo } from "preact/hooks";
import type { EffectState } from "../../effect/effect";
import { withChanges } from "../../effect/grounds";
import { useEffectOf } from "../../effect/watching";
import { copy } from "../../store/queries";
import type { Change } from "../../store/shapes";
import { type Asked, useAsked } from "../asking";
import type { Needed } from "./drought";

export interface DroughtFound {
  effect: EffectState;
  before: Asked<Needed>;
  after: Asked<Needed>;
}

export function useDroughtEffect(changes: readonly Change[], night: string): DroughtFound {
  const data = copy.value;
  const written = JSON.stringify(changes);
  const changed = useMemo(() => (data && changes.length > 0 ? withChanges(data, changes) : data), [data, written]);
  return {
    effect: useEffectOf(changes, night),
    before: useAsked<Needed>("need before", "night", data, { night }),
    after: useAsked<Needed>("need after", "night", changed, { night }),
  };
}
