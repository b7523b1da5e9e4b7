/** One alarm: what is known of it, who may be behind it and how to tell, what people did, and what one can do. */

import { nameOf } from "../changes/people";
import { whenWords } from "../changes/when";
import { followed, happened } from "../journal/queries";
import type { SiteDocument } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { amount, volume } from "../words/units";
import { AlarmActs } from "./alarm-acts";
import type { Alarm, Culprit } from "./shapes";
import { hasUnsent } from "./states";
import { AlarmMark } from "./strip";
import { asOfWords, explainedWords, gravityWords, sentenceWords } from "./words";

export function AlarmView({ alarm, document }: { alarm: Alarm; document: SiteDocument }) {
  const { as_of, caution } = followed.value;
  const asOf = asOfWords(as_of);
  return (
    <div class="alarms">
      <section class="alarm-head" data-gravity={alarm.ended ? "over" : alarm.gravity} aria-labelledby="alarm-title">
        <p class="alarm-gravity">
          <AlarmMark />
          {alarm.ended ? t("Over since {time}", { time: whenWords(alarm.ended.at) }) : gravityWords(alarm.gravity)}
          {hasUnsent(alarm) ? <span class="entry-state">{t("Unsent")}</span> : null}
        </p>
        <h2 id="alarm-title">{sentenceWords(alarm.said, document)}</h2>
        {alarm.ended ? <p>{sentenceWords(alarm.ended.why, document)}</p> : null}
        {asOf ? <p>{asOf}</p> : null}
      </section>
      {caution ? <p class="caution-line">{sentenceWords(caution, document)}</p> : null}
      <Culprits alarm={alarm} document={document} />
      <AlarmActs alarm={alarm} />
      <Facts alarm={alarm} />
      <Said alarm={alarm} />
    </div>
  );
}

function Culprits({ alarm, document }: { alarm: Alarm; document: SiteDocument }) {
  if (!alarm.culprits.length) return null;
  return (
    <section aria-label={t("Who may be behind it")}>
      <h3 class="more-title">{t("Who may be behind it")}</h3>
      <ol class="culprits">
        {alarm.culprits.map((one) => (
          <CulpritRow key={one.said.detail} culprit={one} document={document} />
        ))}
      </ol>
      {alarm.trial.said ? <p class="alarm-trial">{sentenceWords(alarm.trial.said, document)}</p> : null}
    </section>
  );
}

/** How sure it is, as a bar beside the words that say it. */
function CulpritRow({ culprit, document }: { culprit: Culprit; document: SiteDocument }) {
  const station = culprit.station ? document.stations.get(culprit.station) : undefined;
  return (
    <li class="culprit">
      <span class="culprit-bar" aria-hidden="true">
        <span style={{ inlineSize: `${Math.round(100 * culprit.sure)}%` }} />
      </span>
      <span class="culprit-what">
        {station ? <StationTag number={station.number} /> : null}
        <span>{sentenceWords(culprit.said, document)}</span>
      </span>
      {station ? (
        <button type="button" class="button" onClick={() => go("stations", station.id)}>
          {t("Station {station}", { station: station.number })}
        </button>
      ) : null}
    </li>
  );
}

function Facts({ alarm }: { alarm: Alarm }) {
  const facts: [string, string][] = [
    [t("Since"), whenWords(alarm.since)],
    [t("Noticed"), whenWords(alarm.opened_at)],
  ];
  if (alarm.size_lpm) facts.push([t("About"), amount("flow", alarm.size_lpm)]);
  if (alarm.lost_l) facts.push([t("Water so far, about"), volume(alarm.lost_l)]);
  return (
    <dl class="alarm-facts">
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

/** Who has seen it, what people said, and what else the journal has of it. */
function Said({ alarm }: { alarm: Alarm }) {
  const names = followed.value.people;
  const notes = happened.value.filter((entry) => entry.alarm === alarm.id && entry.kind === "alarm_explained");
  return (
    <section aria-label={t("What people did")}>
      <h3 class="more-title">{t("What people did")}</h3>
      {alarm.seen.length + notes.length === 0 && !alarm.explained ? (
        <p class="more-note">{t("Nobody has seen it yet.")}</p>
      ) : null}
      <ul class="alarm-people">
        {alarm.seen.map((one) => (
          <li key={one.person}>
            {t("{who} saw it, {time}.", { who: nameOf(one.person, names[one.person]), time: whenWords(one.at) })}
          </li>
        ))}
        {alarm.explained ? (
          <li>
            <p>
              {t("{who} said, {time}: {what}.", {
                who: alarm.explained.by
                  ? nameOf(alarm.explained.by, names[alarm.explained.by])
                  : t("Somebody of the team"),
                time: whenWords(alarm.explained.at),
                what: explainedWords(alarm.explained.kind),
              })}
            </p>
            {alarm.explained.text ? <p dir="auto">{alarm.explained.text}</p> : null}
          </li>
        ) : null}
        {notes
          .filter((entry) => entry.row)
          .map((entry) => (
            <li key={entry.id}>
              <p>
                {t("You said, {time}: {what}. Unsent.", {
                  time: whenWords(entry.at),
                  what: explainedWords(entry.explained ?? "other"),
                })}
              </p>
              {entry.text ? <p dir="auto">{entry.text}</p> : null}
            </li>
          ))}
      </ul>
    </section>
  );
}
