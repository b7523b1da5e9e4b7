/** What is to be known about the nights ahead: clock changes, and nights that edits have changed by much. */

import { useState } from "preact/hooks";
import { recordTitle } from "../records/record-words";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { exactTime } from "../words/moments";
import { say } from "../words/say";
import { siteNotices } from "./book";
import { records } from "./ground";
import { wallOf } from "./when";

/** So many are in sight; the others are a tap away. */
const FIRST = 4;

export function NoticeList() {
  const [all, setAll] = useState(false);
  const found = siteNotices.value;
  const more = found.length - FIRST;
  if (found.length === 0) return null;
  return (
    <section aria-labelledby="notices-title">
      <div class="list-head">
        <h2 id="notices-title">{t("About nights ahead")}</h2>
      </div>
      <ul class="rows" data-list="notices">
        {(all ? found : found.slice(0, FIRST)).map((notice) => (
          <li key={`${notice.night} ${notice.message.code} ${notice.revision}`}>
            <button type="button" class="row" onClick={() => go("tonight", notice.night)}>
              <span class="row-what">{say(notice.message, NAMES)}</span>
            </button>
          </li>
        ))}
      </ul>
      {more > 0 && !all ? (
        <div class="change-buttons">
          <button type="button" class="button" onClick={() => setAll(true)}>
            {tn("Show the other {count}", "Show the other {count}", more)}
          </button>
        </div>
      ) : null}
    </section>
  );
}

const NAMES = {
  name: (kind: string, id: string) =>
    recordTitle(records.value.get(kind === "supply" ? "supplies" : `${kind}s`, id), records.value),
  time: (instant: number) => exactTime(wallOf(instant)),
};
