/** Which runs move, from when to when; the first few in sight, the others a tap away. */

import { useState } from "preact/hooks";
import { now } from "../night/now";
import { timeAt } from "../night/reading";
import { StationTag } from "../tonight/station-tag";
import { t, tn } from "../words/catalogue";
import type { Moved } from "./compare";
import type { Effect } from "./effect";
import { arrow, movedWords, rangeWords } from "./phrases";

const FIRST = 3;

export function EffectMoves({ effect }: { effect: Effect }) {
  const { moved } = effect.comparison;
  const [all, setAll] = useState(false);
  if (moved.length === 0) return null;
  const more = moved.length - FIRST;
  const ordered = comingFirst(effect);
  const begun = ordered.filter((one) => hasBegun(effect, one)).length;
  return (
    <section class="effect-moves">
      <div class="list-head">
        <h3>{movedWords(effect.comparison)}</h3>
        <p>{rangeWords(effect.comparison)}</p>
      </div>
      <ul>
        {(all ? ordered : ordered.slice(0, FIRST)).map((one) => (
          <MovedRow key={one.key} effect={effect} moved={one} />
        ))}
      </ul>
      {more > 0 && !all ? (
        <button type="button" class="row effect-more" onClick={() => setAll(true)}>
          {tn("Show the other {count}", "Show the other {count}", more)}
        </button>
      ) : null}
      {begun > 0 ? <p class="effect-begun">{begunWords(begun)}</p> : null}
    </section>
  );
}

function begunWords(count: number): string {
  return tn(
    "{count} of them begins before now in one of the two plans. What has run has run: the plan is made for the whole night.",
    "{count} of them begin before now in one of the two plans. What has run has run: the plan is made for the whole night.",
    count,
  );
}

function hasBegun(effect: Effect, { from, to }: Moved): boolean {
  return effect.tonight && Math.min(from, to) <= now.value;
}

/** What can still be waited for stands before what has begun. */
function comingFirst(effect: Effect): Moved[] {
  const { moved } = effect.comparison;
  return [...moved.filter((one) => !hasBegun(effect, one)), ...moved.filter((one) => hasBegun(effect, one))];
}

function MovedRow({ effect, moved }: { effect: Effect; moved: Moved }) {
  const station = effect.document.stations.get(moved.run.station);
  const [from, to] = [timeAt(effect.clock, moved.from), timeAt(effect.clock, moved.to)];
  const { cycle, cycles } = moved.run;
  return (
    <li class="row">
      <StationTag number={station?.number ?? moved.run.station} />
      <span class="row-what">
        <span class="row-name">
          <bdi>{station?.name ?? ""}</bdi>
        </span>
        {cycles > 1 ? <span class="row-under">{t("cycle {cycle} of {cycles}", { cycle, cycles })}</span> : null}
      </span>
      <span class="row-end effect-move">
        <span class="unseen">{t("from {before} to {after}", { before: from, after: to })}</span>
        <span aria-hidden="true">
          <span class="effect-from">{from}</span> {arrow()} <strong>{to}</strong>
        </span>
      </span>
    </li>
  );
}
