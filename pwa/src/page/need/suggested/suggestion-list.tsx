/** The suggestions, each to be chosen, and beside it its program's limits. */

import type { SiteDocument } from "../../site/document";
import { mayEdit } from "../../store/queries";
import { t, tn } from "../../words/catalogue";
import { SuggestionRow } from "./suggestion-row";
import type { Suggestion } from "./suggestions";

interface SuggestionListProps {
  document: SiteDocument;
  suggestions: readonly Suggestion[];
  chosen: readonly string[];
  onChoose: (programs: string[]) => void;
}

export function SuggestionList({ document, suggestions, chosen, onChoose }: SuggestionListProps) {
  const all = suggestions.map(({ program }) => program);
  const turn = (program: string, on: boolean) =>
    onChoose(all.filter((one) => (one === program ? on : chosen.includes(one))));
  if (all.length === 0)
    return <p class="list-none">{t("Every percentage that can be worked out is right as it stands.")}</p>;
  return (
    <section aria-labelledby="suggested-list">
      <div class="list-head suggested-head">
        <h2 id="suggested-list">{tn("{count} suggestion", "{count} suggestions", all.length)}</h2>
        {mayEdit.value && chosen.length < all.length ? (
          <button type="button" class="button" onClick={() => onChoose(all)}>
            {t("Choose all")}
          </button>
        ) : null}
      </div>
      <ul>
        {suggestions.map((one) => (
          <SuggestionRow
            key={one.program}
            document={document}
            suggestion={one}
            chosen={chosen.includes(one.program)}
            onTurn={(on) => turn(one.program, on)}
          />
        ))}
      </ul>
    </section>
  );
}
