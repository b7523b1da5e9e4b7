/** The site's history, the newest first: who changed what and when, what it did to tonight, and the way back. */

import { useEffect } from "preact/hooks";
import { copy } from "../store/queries";
import { t } from "../words/catalogue";
import { longDay } from "../words/moments";
import { book, type Filters, olderPage, openBook } from "./book";
import { HistoryAct } from "./history-act";
import { HistoryFilters } from "./history-filters";
import { acts } from "./sets";
import { dayOf } from "./when";

export function HistoryPage() {
  const { edits, is, next } = book.value;
  const site = copy.value?.site;
  useEffect(() => {
    if (site) void openBook(book.peek().filters);
  }, [site]);
  const found = acts(edits);
  return (
    <section class="history" aria-labelledby="history-title" aria-busy={is === "reading"}>
      <div class="list-head">
        <h2 id="history-title">{t("History")}</h2>
      </div>
      <HistoryFilters filters={book.value.filters} onChange={(filters: Filters) => void openBook(filters)} />
      <Reading is={is} none={found.length === 0} />
      <ol class="rows" data-list="history">
        {found.map((act, index) => {
          const [first] = act.items;
          const day = first ? dayOf(first.at) : "";
          const before = found[index - 1]?.items[0];
          return (
            <li key={act.id}>
              {before && dayOf(before.at) === day ? null : <h3 class="history-day">{longDay(day)}</h3>}
              <HistoryAct edits={act.items} />
            </li>
          );
        })}
      </ol>
      {next === null ? null : (
        <div class="change-buttons">
          <button type="button" class="button" disabled={is === "reading"} onClick={() => void olderPage()}>
            {t("Older edits")}
          </button>
        </div>
      )}
    </section>
  );
}

function Reading({ is, none }: { is: string; none: boolean }) {
  const words: Record<string, string> = {
    reading: none ? t("Reading the history…") : "",
    old: t("No signal. This is what this phone had read before."),
    failed: t("The history needs signal; this phone has none of it yet."),
    read: none ? t("No edit fits this choice.") : "",
  };
  return (
    <p class={words[is] ? "list-none" : "unseen"} role="status">
      {words[is] ?? ""}
    </p>
  );
}
