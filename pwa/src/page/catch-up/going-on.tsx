/** An interruption that goes on: since when, that it is over, or when it is expected to be. */

import type { LoadedNight } from "../night/night";
import { serverTime } from "../night/now";
import { timeAt } from "../night/reading";
import { mayEdit } from "../store/queries";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { endingOf, type Interruption } from "./interruptions";
import { promised } from "./rests";
import type { Saying } from "./use-saying";
import { goingOnWords, isOverWords } from "./words";

const EXPECTED_S = [3600, 2 * 3600, 4 * 3600];

interface GoingOnProps {
  one: Interruption;
  night: LoadedNight;
  saying: Saying;
}

export function GoingOn({ one, night, saying }: GoingOnProps) {
  const expected = promised.value.get(one.key);
  return (
    <div class="catch-up-going">
      <p class="catch-up-said">{goingOnWords(one, night)}</p>
      {expected ? (
        <p>{t("Worked out as if it were over at {time}.", { time: timeAt(night.clock, expected.at) })}</p>
      ) : null}
      {mayEdit.value ? (
        <div class="catch-up-acts">
          <button type="button" class="button" disabled={saying.busy} onClick={() => void saying.say(endingOf(one))}>
            {isOverWords(one.what)}
          </button>
          {EXPECTED_S.map((seconds) => (
            <button key={seconds} type="button" class="button" onClick={() => expect(one, seconds)}>
              {t("Expected over in {duration}", { duration: duration(seconds) })}
            </button>
          ))}
        </div>
      ) : null}
    </div>
  );
}

function expect(one: Interruption, seconds: number): void {
  const at = serverTime() + seconds;
  promised.value = new Map(promised.value).set(one.key, { ...endingOf(one), at });
}
