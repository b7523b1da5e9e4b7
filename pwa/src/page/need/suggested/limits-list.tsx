/** Every program's limits, each leading to where they are changed. */

import type { SiteDocument } from "../../site/document";
import { ProgramChip } from "../../tonight/program-chip";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { limitsOf, withTurnsByHand } from "./suggestions";
import { byItselfWords, limitWords } from "./words";

export function LimitsList({ document }: { document: SiteDocument }) {
  return (
    <details class="as-table">
      <summary>{t("Limits, program by program")}</summary>
      {withTurnsByHand(document).map((id) => (
        <button key={id} type="button" class="row" onClick={() => go("need", "suggested", id)}>
          <ProgramChip program={document.programs.get(id)} />
          <span class="row-what">
            <span class="row-name">
              <bdi>{document.programs.get(id)?.name ?? id}</bdi>
            </span>
            <span class="row-under">
              {limitWords(limitsOf(document, id))} {byItselfWords(limitsOf(document, id))}
            </span>
          </span>
        </button>
      ))}
    </details>
  );
}
