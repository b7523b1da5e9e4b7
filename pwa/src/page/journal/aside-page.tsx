/** What came to the journal and is no entry: kept apart with what is wrong with it. Needs signal. */

import { whenWords } from "../changes/when";
import { knownAnswer } from "../more/known-list";
import { NeedsSignal } from "../more/needs-signal";
import { useKnown } from "../more/use-known";
import { copy, person } from "../store/queries";
import { t, tn } from "../words/catalogue";
import type { EntryFault } from "./shapes";
import { tellerWords } from "./words";

interface AsideLine {
  number: number;
  by: string;
  faults: EntryFault[];
  given: string;
  times: number;
  first_at: number;
  last_at: number;
}

interface AsideAnswer {
  aside: AsideLine[];
  names: Record<string, string>;
}

export function AsidePage() {
  const site = copy.value?.site ?? "";
  const answer = knownAnswer<AsideAnswer>(
    person.value?.id ?? "",
    `/api/sites/${encodeURIComponent(site)}/journal/aside`,
  );
  const known = useKnown(answer, site !== "");
  return (
    <div class="journal">
      <h2 class="more-title">{t("What was kept aside")}</h2>
      <p class="more-note">
        {t(
          "What cannot be true or cannot be read is never mixed in with what happened. It stands here with its reasons.",
        )}
      </p>
      <NeedsSignal known={known} reload={() => void answer.load()} />
      {known.items?.aside.length === 0 ? <p class="more-note">{t("Nothing was kept aside.")}</p> : null}
      <ul class="more-list">
        {known.items?.aside.map((line) => (
          <AsideRow key={line.number} line={line} names={known.items?.names ?? {}} />
        ))}
      </ul>
    </div>
  );
}

function AsideRow({ line, names }: { line: AsideLine; names: Record<string, string> }) {
  const time = whenWords(line.last_at);
  return (
    <li class="aside-line">
      <ul class="aside-reasons">
        {line.faults.map((fault) => (
          <li key={`${fault.field}${fault.code}`}>
            {fault.field ? <code dir="ltr">{fault.field}</code> : null} {fault.detail}
          </li>
        ))}
      </ul>
      <pre dir="ltr">{line.given}</pre>
      <p class="entry-by">
        {line.times > 1
          ? tn("{who}, {count} time, last {time}", "{who}, {count} times, last {time}", line.times, {
              who: tellerWords(line.by, names),
              time,
            })
          : t("{who}, {time}", { who: tellerWords(line.by, names), time })}
      </p>
    </li>
  );
}
