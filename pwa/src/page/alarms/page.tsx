/** The alarms of a site: those that stand, then those that are over; and one of them with all that is known of it. */

import "../look/controls.css";
import "../look/lists.css";
import "../look/alarms.css";
import { useEffect } from "preact/hooks";
import { whenWords } from "../changes/when";
import { followJournal } from "../journal/following";
import { followed } from "../journal/queries";
import type { SiteDocument } from "../site/document";
import { site } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { AlarmView } from "./alarm-view";
import { alarms } from "./queries";
import type { Alarm } from "./shapes";
import { hasUnsent, isSeenByMe } from "./states";
import { AlarmMark } from "./strip";
import { asOfWords, gravityWords, sentenceWords } from "./words";

export function AlarmsPage({ words: [id] }: { words: string[] }) {
  useEffect(followJournal, []);
  const document = site.value;
  if (!document) return <p class="more-note">{t("No site is on this phone yet.")}</p>;
  if (!id) return <List document={document} />;
  const alarm = alarms.value.find((one) => one.id === id);
  return alarm ? <AlarmView alarm={alarm} document={document} /> : <Unknown />;
}

function Unknown() {
  return (
    <div class="alarms">
      <p class="more-note">{t("This phone does not know of this alarm. It may be long over, or need signal.")}</p>
      <div class="more-ways">
        <button type="button" class="button" onClick={() => go("more", "alarms")}>
          {t("All alarms")}
        </button>
      </div>
    </div>
  );
}

function List({ document }: { document: SiteDocument }) {
  const [standing, over] = [alarms.value.filter((one) => !one.ended), alarms.value.filter((one) => one.ended)];
  const asOf = asOfWords(followed.value.as_of);
  return (
    <div class="alarms">
      {asOf ? <p class="more-note">{asOf}</p> : null}
      <Part
        document={document}
        title={t("Now")}
        alarms={standing}
        none={t("Nothing is wrong as far as readings show.")}
      />
      <Part document={document} title={t("Over")} alarms={over} none={t("No alarm in the last nights.")} />
    </div>
  );
}

interface PartProps {
  document: SiteDocument;
  title: string;
  alarms: readonly Alarm[];
  none: string;
}

function Part({ document, title, alarms, none }: PartProps) {
  return (
    <section aria-label={title}>
      <h2 class="more-title">{title}</h2>
      {alarms.length === 0 ? <p class="more-note">{none}</p> : null}
      <ul class="alarm-list">
        {alarms.map((alarm) => (
          <li key={alarm.id}>
            <Row alarm={alarm} document={document} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Row({ alarm, document }: { alarm: Alarm; document: SiteDocument }) {
  return (
    <button
      type="button"
      class="alarm-row"
      data-gravity={alarm.ended ? "over" : alarm.gravity}
      onClick={() => go("more", "alarms", alarm.id)}
    >
      <span class="alarm-gravity">
        <AlarmMark />
        {gravityWords(alarm.gravity)}
        {!alarm.ended && !isSeenByMe(alarm) ? <span class="entry-state">{t("New to you")}</span> : null}
        {hasUnsent(alarm) ? <span class="entry-state">{t("Unsent")}</span> : null}
      </span>
      <span class="alarm-said">{sentenceWords(alarm.said, document)}</span>
      {alarm.ended ? (
        <span class="alarm-when">{t("Over since {time}", { time: whenWords(alarm.ended.at) })}</span>
      ) : null}
    </button>
  );
}
