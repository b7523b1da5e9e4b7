/** What no longer fits, what fits again, and what falls short by another amount. */

import { sayFor } from "../night/reading";
import type { Shortfall } from "../night/sheet";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { volume } from "../words/units";
import type { Effect } from "./effect";

export function EffectShort({ effect }: { effect: Effect }) {
  const { fresh, gone, changed } = effect.comparison.short;
  return (
    <>
      {fresh.map((item) => (
        <ShortRow key={item.turn} effect={effect} item={item} />
      ))}
      {changed.map(({ before, after }) => (
        <ChangedRow key={after.turn} effect={effect} before={before} after={after} />
      ))}
      {gone.map((item) => (
        <p key={item.turn} class="effect-good">
          {t("{station} fits again.", { station: effect.document.nameOf("turn", item.turn) })}
        </p>
      ))}
    </>
  );
}

function ShortRow({ effect, item }: { effect: Effect; item: Shortfall }) {
  const station = effect.document.nameOf("station", item.station);
  const amounts = { duration: duration(item.run_s), volume: volume(item.volume_l) };
  return (
    <div class="effect-short">
      <Sign />
      <div>
        <p class="effect-short-what">{t("{station} no longer fits", { station })}</p>
        <p>
          {effect.tonight
            ? t("{duration}, {volume} short tonight.", amounts)
            : t("{duration}, {volume} short.", amounts)}
        </p>
        <p>{sayFor(effect, item.why)}</p>
      </div>
    </div>
  );
}

function ChangedRow({ effect, before, after }: { effect: Effect; before: Shortfall; after: Shortfall }) {
  const words = {
    station: effect.document.nameOf("station", after.station),
    before: volume(before.volume_l),
    after: volume(after.volume_l),
  };
  if (after.volume_l < before.volume_l) {
    return <p class="effect-good">{t("{station} falls short by {after} instead of {before}.", words)}</p>;
  }
  return (
    <div class="effect-short">
      <Sign />
      <p>{t("{station} falls short by {after} instead of {before}.", words)}</p>
    </div>
  );
}

/** It stands beside words that say the same. */
function Sign() {
  return (
    <svg class="effect-sign" viewBox="0 0 28 26" aria-hidden="true">
      <path d="M14 3L26 24H2Z" />
      <path d="M14 10V17M14 20V20.5" />
    </svg>
  );
}
