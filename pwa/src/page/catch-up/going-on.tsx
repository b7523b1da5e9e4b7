/** An interruption that goes on: since when, that it is over, or when it is expected to be. */

import type { LoadedNight } from "../night/night";
import { serverTime } from "../night/now";
import { timeAt } from "../night/reading";
import { mayEdit } from "../store/queries";
import { t } from "../words/catalogue";
import { duration } from "../words/durations";
import { endingOf, type Interruption } from "./interruptions";
import { expect, promised } from "./promises";
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
        </div>
      ) : null}
      {mayEdit.value ? <Expected one={one} /> : null}
    </div>
  );
}

/** When it is expected to be over: the rest is worked out as if it were. */
function Expected({ one }: { one: Interruption }) {
  return (
    <div class="catch-up-expected">
      <p aria-hidden="true">{t("Expected to be over in")}</p>
      {EXPECTED_S.map((seconds) => (
        <button
          key={seconds}
          type="button"
          class="button"
          aria-label={t("Expected over in {duration}", { duration: duration(seconds) })}
          onClick={() => void expect(one, serverTime() + seconds)}
        >
          {duration(seconds)}
        </button>
      ))}
    </div>
  );
}
