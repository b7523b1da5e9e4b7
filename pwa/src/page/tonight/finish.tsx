/** When the night ends, what holds it there, and how much water did not fit. */

import { shortVolume } from "../night/moments";
import type { LoadedNight } from "../night/night";
import { sayFor, timeAt } from "../night/reading";
import { t, tn } from "../words/catalogue";
import { volume } from "../words/units";

export function Finish({ night }: { night: LoadedNight }) {
  const { finish, bound, shortfalls, runs, volume_l } = night.sheet;
  if (finish === null && shortfalls.length === 0) return null;
  return (
    <section class="finish" aria-labelledby="finish-title">
      <h2 id="finish-title" class="finish-when">
        {finish === null ? t("Nothing can run") : t("Finish {time}", { time: timeAt(night.clock, finish) })}
      </h2>
      <div class="finish-why">
        {bound ? <p>{sayFor(night, bound.holder)}</p> : null}
        {bound?.relief ? <p>{sayFor(night, bound.relief)}</p> : null}
        {shortfalls.length > 0 ? (
          <p class="short">{t("{volume} short tonight.", { volume: volume(shortVolume(shortfalls)) })}</p>
        ) : null}
      </div>
      <p class="finish-sum">
        {tn("{count} run, {volume}", "{count} runs, {volume}", runs.length, { volume: volume(volume_l) })}
      </p>
    </section>
  );
}
