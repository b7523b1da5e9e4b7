/** The gist of an effect in one line: when the night ends before and after, and what no longer fits. */

import type { EffectState } from "../effect/effect";
import { finishWords } from "../effect/phrases";
import { timeAt } from "../night/reading";
import { t, tn } from "../words/catalogue";
import { shortDay } from "../words/moments";

export function effectWords(state: EffectState): string {
  if (state.is === "working") return t("Working it out…");
  if (state.is !== "known") return "";
  const { comparison, clock, tonight } = state.effect;
  const { before, after, short, night } = comparison;
  const times = {
    before: before.finish === null ? "–" : timeAt(clock, before.finish),
    after: after.finish === null ? "–" : timeAt(clock, after.finish),
  };
  const finish = before.finish === after.finish ? finishWords(comparison) : t("finish {before}, then {after}", times);
  const when = tonight ? t("Tonight") : shortDay(night);
  const worse = short.fresh.length;
  if (!worse) return t("{night}: {finish}", { night: when, finish });
  const gone = tn("{count} turn no longer fits", "{count} turns no longer fit", worse);
  return t("{night}: {finish}, {short}", { night: when, finish, short: gone });
}
