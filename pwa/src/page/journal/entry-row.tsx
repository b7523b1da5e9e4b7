/** One entry of the journal: when, what, where, by whom; and what becomes of it where it is still on this phone. */

import { useState } from "preact/hooks";
import { alarms } from "../alarms/queries";
import { wallOf } from "../changes/when";
import { KeepFault } from "../edits/fault";
import { keepFaultWords } from "../records/fault-words";
import type { SiteDocument } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { exactTime } from "../words/moments";
import { placeName } from "./choosing";
import type { Happened } from "./queries";
import { saidLines } from "./said";
import type { ToldRow } from "./shapes";
import { discard, sendAgain } from "./telling";
import { kindWords, tellerWords } from "./words";

interface EntryRowProps {
  entry: Happened;
  document: SiteDocument;
  names: Record<string, string>;
}

export function EntryRow({ entry, document, names }: EntryRowProps) {
  const station = entry.station ? document.stations.get(entry.station) : undefined;
  const said = saidLines(entry, document, alarms.value);
  const place = station ? station.name : placeName(entry, document);
  return (
    <li class="entry" data-kind={entry.kind}>
      <span class="entry-time">{exactTime(wallOf(entry.at))}</span>
      <div class="entry-what">
        <p class="entry-kind">
          <span>{kindWords(entry)}</span>
          {entry.row ? <State row={entry.row} /> : null}
        </p>
        {place ? (
          <p class="entry-place">
            {station ? <StationTag number={station.number} /> : null}
            <bdi>{place}</bdi>
          </p>
        ) : null}
        {said.map((line) => (
          <p key={line} class="entry-text" dir="auto">
            {line}
          </p>
        ))}
        <p class="entry-by">{tellerWords(entry.by, names)}</p>
        {entry.row?.faults ? <Aside row={entry.row} /> : null}
        {entry.alarm && entry.kind === "alarm_opened" ? <AlarmWay id={entry.alarm} /> : null}
      </div>
    </li>
  );
}

function State({ row }: { row: ToldRow }) {
  if (row.faults) return <span class="entry-state entry-aside">{t("Not taken")}</span>;
  return <span class="entry-state">{row.taken ? t("In the journal") : t("Unsent")}</span>;
}

function AlarmWay({ id }: { id: string }) {
  return (
    <button type="button" class="button entry-way" onClick={() => go("more", "alarms", id)}>
      {t("Look at this alarm")}
    </button>
  );
}

/** The server would not have it: its person reads why, and sends it again or throws it away. */
function Aside({ row }: { row: ToldRow }) {
  const [fault, setFault] = useState<KeepFault["why"] | null>(null);
  const act = async (work: () => Promise<void>) => {
    try {
      await work();
    } catch (error) {
      if (!(error instanceof KeepFault)) throw error;
      setFault(error.why);
    }
  };
  return (
    <div class="entry-faults" role="status">
      {row.faults?.map((one) => (
        <p key={one.code}>{one.detail}</p>
      ))}
      {fault ? <p>{keepFaultWords(fault)}</p> : null}
      <div class="entry-acts">
        <button type="button" class="button" onClick={() => void act(() => sendAgain(row.id))}>
          {t("Send again")}
        </button>
        <button type="button" class="button" onClick={() => void act(() => discard(row.id))}>
          {t("Throw away")}
        </button>
      </div>
    </div>
  );
}
