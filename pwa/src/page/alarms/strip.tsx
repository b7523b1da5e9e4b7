/** The gravest alarm that stands, below the next water: what, where, since when, and who may be behind it. */

import "../look/alarms.css";
import { followed } from "../journal/queries";
import type { SiteDocument } from "../site/document";
import { mayNote, site } from "../store/queries";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { standing } from "./queries";
import type { Alarm } from "./shapes";
import { isEndedHere, isSeenByMe } from "./states";
import { useActing } from "./use-acting";
import { asOfWords, gravityWords, sentenceWords } from "./words";

export function AlarmStrip() {
  const shown = standing.value.filter((alarm) => !isEndedHere(alarm));
  const [first] = shown;
  const document = site.value;
  if (!first || !document) return null;
  const asOf = asOfWords(followed.value.as_of);
  return (
    <section class="alarm-strip" aria-label={t("Alarms")}>
      <First alarm={first} document={document} others={shown.length - 1} />
      {asOf ? <p class="alarm-as-of">{asOf}</p> : null}
    </section>
  );
}

interface FirstProps {
  alarm: Alarm;
  document: SiteDocument;
  /** How many more stand. */
  others: number;
}

function First({ alarm, document, others }: FirstProps) {
  const [culprit] = alarm.culprits;
  const acting = useActing();
  return (
    <div class="alarm-first" data-gravity={alarm.gravity}>
      <p class="alarm-gravity">
        <AlarmMark />
        {gravityWords(alarm.gravity)}
      </p>
      <p class="alarm-said">{sentenceWords(alarm.said, document)}</p>
      {culprit ? <p class="alarm-culprit">{sentenceWords(culprit.said, document)}</p> : null}
      <div class="alarm-acts">
        <button type="button" class="button" onClick={() => go("more", "alarms", alarm.id)}>
          {t("Look at it")}
        </button>
        {mayNote.value && !isSeenByMe(alarm) ? (
          <button
            type="button"
            class="button"
            disabled={acting.busy}
            onClick={() => void acting.run(alarm.id, { kind: "seen" })}
          >
            {t("I have seen it")}
          </button>
        ) : null}
        {others > 0 ? (
          <button type="button" class="button" onClick={() => go("more", "alarms")}>
            {tn("{count} more alarm", "{count} more alarms", others)}
          </button>
        ) : null}
      </div>
      {acting.fault ? (
        <p role="status" class="alarm-fault">
          {acting.fault}
        </p>
      ) : null}
    </div>
  );
}

/** A pierced plate with a bar: never colour alone. */
export function AlarmMark() {
  return (
    <svg class="alarm-mark" viewBox="0 0 20 20" aria-hidden="true">
      <path d="M2 2H18V10A8 8 0 0 1 2 10Z" />
      <path class="alarm-mark-bar" d="M10 5V10M10 12.6V14.2" />
    </svg>
  );
}
