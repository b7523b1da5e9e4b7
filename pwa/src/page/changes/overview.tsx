/** The room at a glance: what is to be decided, what is unsent, what others did, and the way to the history. */

import { go } from "../way/way";
import { t } from "../words/catalogue";
import { NewsList } from "./news-list";
import { NoticeList } from "./notice-list";
import { UnsentList } from "./unsent-list";
import { WaitingList } from "./waiting-list";

export function Overview() {
  return (
    <div class="changes-lists">
      <WaitingList />
      <UnsentList />
      <NewsList />
      <NoticeList />
      <nav class="change-buttons" aria-label={t("Back in time")}>
        <button type="button" class="button" onClick={() => go("changes", "history")}>
          {t("History")}
        </button>
        <button type="button" class="button" onClick={() => go("changes", "then")}>
          {t("As it stood on a date")}
        </button>
      </nav>
      <p class="change-help">
        {t(
          "Whatever you change, note or photograph is kept on this phone first and sent as soon as there is signal. What two people set without knowing of each other waits here until somebody chooses.",
        )}
      </p>
    </div>
  );
}
