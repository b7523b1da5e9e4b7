/** The entries that are looked for, night by night, the newest first; and the way to older ones. */

import { useEffect, useState } from "preact/hooks";
import { wallOf } from "../changes/when";
import type { SiteDocument } from "../site/document";
import { t, tn } from "../words/catalogue";
import { nightSpan } from "../words/moments";
import { byNight } from "./choosing";
import { EntryRow } from "./entry-row";
import { askOlder, found, looked, names, older, onlyAsked } from "./looking";
import { entries } from "./queries";

const AT_ONCE = 120;

export function EntryList({ document }: { document: SiteDocument }) {
  const [most, setMost] = useState(AT_ONCE);
  const question = JSON.stringify(looked.value);
  useEffect(() => setMost(AT_ONCE), [question]);
  useEffect(() => {
    if (onlyAsked.value) void askOlder();
  }, [question, onlyAsked.value]);
  const shown = found.value.slice(0, most);
  const left = found.value.length - shown.length;
  return (
    <section class="journal-nights" aria-label={t("What happened")}>
      {byNight(shown, wallOf).map(({ night, items }) => (
        <div key={night} class="journal-night">
          <h2 class="journal-night-name">{t("Night of {night}", { night: nightSpan(night) })}</h2>
          <ol class="entries">
            {items.map((entry) => (
              <EntryRow key={entry.id} entry={entry} document={document} names={names.value} />
            ))}
          </ol>
        </div>
      ))}
      {left > 0 ? (
        <button type="button" class="button journal-more" onClick={() => setMost(most + AT_ONCE)}>
          {tn("Show more: {count} is left here", "Show more: {count} are left here", left)}
        </button>
      ) : (
        <Beyond none={shown.length === 0} />
      )}
    </section>
  );
}

function Beyond({ none }: { none: boolean }) {
  const { is, next } = older.value;
  return (
    <div class="journal-beyond">
      <p role="status" class="journal-said">
        {beyondWords(is, next, none)}
      </p>
      {next === null ? null : (
        <button type="button" class="button" disabled={is === "asking"} onClick={() => void askOlder()}>
          {is === "no_line" ? t("Try again") : t("Older ones, from the server")}
        </button>
      )}
    </div>
  );
}

function beyondWords(is: string, next: string | null | undefined, none: boolean): string {
  if (is === "asking") return t("Asking the server…");
  if (is === "no_line") return t("Older ones need signal. What this phone holds is above.");
  if (is === "refused") return t("The server could not do that. Try again.");
  if (entries.value === null) return t("Reading what this phone holds…");
  if (!none) return next === null ? t("That is all there is.") : "";
  return next === null ? t("Nothing like this has happened.") : t("Nothing like this in the last nights.");
}
