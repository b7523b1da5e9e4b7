/** What is to be known about the nights ahead: clock changes, and nights that edits have changed by much. */

import { recordTitle } from "../records/record-words";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { exactTime } from "../words/moments";
import { say } from "../words/say";
import { siteNotices } from "./book";
import { records } from "./ground";
import { wallOf } from "./when";

export function NoticeList() {
  const found = siteNotices.value;
  if (found.length === 0) return null;
  return (
    <section aria-labelledby="notices-title">
      <div class="list-head">
        <h2 id="notices-title">{t("About nights ahead")}</h2>
      </div>
      <ul class="rows" data-list="notices">
        {found.map((notice) => (
          <li key={`${notice.night} ${notice.message.code} ${notice.revision}`}>
            <button type="button" class="row" onClick={() => go("tonight", notice.night)}>
              <span class="row-what">{say(notice.message, NAMES)}</span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}

const NAMES = {
  name: (kind: string, id: string) =>
    recordTitle(records.value.get(kind === "supply" ? "supplies" : `${kind}s`, id), records.value),
  time: (instant: number) => exactTime(wallOf(instant)),
};
