/** Why the effect is not there yet, and when it will be. Nothing waits for it: a change can be kept all the same. */

import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import type { EffectState } from "./effect";

export function EffectWaiting({ state }: { state: EffectState }) {
  if (state.is === "loading") return <Loading progress={state.progress} />;
  return (
    <div class="effect-slab">
      <p class="effect-title">{state.is === "working" ? t("Working it out…") : t("The effect is known after sync.")}</p>
    </div>
  );
}

function Loading({ progress }: { progress: number }) {
  const percent = figure(progress * 100, 0);
  return (
    <div class="effect-slab">
      <p class="effect-title">{t("The planner is loading: {percent} %.", { percent })}</p>
      <progress class="effect-progress" max={1} value={progress} aria-label={t("The planner is loading")} />
      <p class="effect-later">
        {t("You can keep the change without waiting. Its effect is known then, or after sync.")}
      </p>
    </div>
  );
}
