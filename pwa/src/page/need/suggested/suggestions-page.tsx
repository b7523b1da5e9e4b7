/** All suggestions of tonight, with what those that are chosen do to it. */

import { draftOf, putDraft } from "../../edits/drafts";
import { NeedsSignal } from "../../more/needs-signal";
import type { SiteDocument } from "../../site/document";
import { WhoMay } from "../../stations/who-may";
import { AskingLine } from "../asking-line";
import { PlanningAid } from "../planning-aid";
import { ChosenEffect } from "./chosen-effect";
import { LimitsList } from "./limits-list";
import { NeedNow } from "./need-now";
import { OtherPrograms } from "./other-programs";
import { SiteShare } from "./site-share";
import { SuggestionList } from "./suggestion-list";
import { needIn, type Suggestions, standing } from "./suggestions";
import { type Told, useSuggestions } from "./use-suggestions";

const DRAFT = "need/suggested";

export function SuggestionsPage({ document }: { document: SiteDocument }) {
  const told = useSuggestions();
  return told.found ? <Found document={document} found={told.found} told={told} /> : <Waiting told={told} />;
}

/** While the planner loads, the server may know. */
function Waiting({ told }: { told: Told }) {
  return (
    <>
      <AskingLine asked={told.asked} />
      {told.asked.is === "later" ? <NeedsSignal known={told.server} reload={told.reload} /> : null}
    </>
  );
}

interface FoundProps {
  document: SiteDocument;
  found: Suggestions;
  told: Told;
}

function Found({ document, found, told }: FoundProps) {
  const suggestions = standing(found, document);
  const drafted = new Set(draftOf<string[]>(DRAFT) ?? []);
  const chosen = suggestions.filter(({ program }) => drafted.has(program));
  const choose = (programs: readonly string[]) => putDraft(DRAFT, programs.length > 0 ? programs : null);
  const need = needIn(found);
  return (
    <div class="suggested">
      <div class="suggested-list">
        {need ? <NeedNow need={need} /> : null}
        {told.asked.is === "later" ? <NeedsSignal known={told.server} reload={told.reload} /> : null}
        <SiteShare document={document} />
        <WhoMay />
        <SuggestionList
          document={document}
          suggestions={suggestions}
          chosen={chosen.map(({ program }) => program)}
          onChoose={choose}
        />
        <OtherPrograms document={document} found={found} />
        <LimitsList document={document} />
        <PlanningAid />
      </div>
      {chosen.length > 0 ? <ChosenEffect chosen={chosen} onDone={() => choose([])} /> : null}
    </div>
  );
}
