/** One program's suggestion: its percentage now and as it should be. */

import { arrow } from "../../effect/phrases";
import type { SiteDocument } from "../../site/document";
import { mayEdit } from "../../store/queries";
import { ProgramChip } from "../../tonight/program-chip";
import { t } from "../../words/catalogue";
import type { Suggestion } from "./suggestions";
import { noteOf, pct } from "./words";

interface SuggestionRowProps {
  document: SiteDocument;
  suggestion: Suggestion;
  chosen: boolean;
  onTurn: (on: boolean) => void;
}

export function SuggestionRow({ document, suggestion, chosen, onTurn }: SuggestionRowProps) {
  const { program, from_pct, to_pct } = suggestion;
  const known = document.programs.get(program);
  const note = noteOf(suggestion);
  return (
    <li class="suggested-row">
      <label class="row row-choosing">
        <input
          type="checkbox"
          checked={chosen}
          disabled={!mayEdit.value}
          onChange={(event) => onTurn(event.currentTarget.checked)}
        />
        <ProgramChip program={known} />
        <span class="row-what">
          <span class="row-name">
            <bdi>{known?.name ?? program}</bdi>
          </span>
          {note ? <span class="row-under">{note}</span> : null}
        </span>
        <span class="row-end effect-move">
          <span class="unseen">{t("from {before} to {after}", { before: pct(from_pct), after: pct(to_pct) })}</span>
          <span aria-hidden="true">
            <span class="effect-from">{pct(from_pct)}</span> {arrow()} <strong>{pct(to_pct)}</strong>
          </span>
        </span>
      </label>
    </li>
  );
}
