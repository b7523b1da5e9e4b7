/** Seasonal percentages as the last days' weather suggests them: taken one by one or all at once, after their effect. */

import "../../look/effect.css";
import "../../look/need-suggested.css";
import "../../look/stations.css";
import { site } from "../../store/queries";
import { ProgramLimits } from "./program-limits";
import { SuggestionsPage } from "./suggestions-page";

export function SuggestedPage({ words: [program] }: { words: string[] }) {
  const document = site.value;
  if (!document) return null;
  if (program && document.programs.has(program)) {
    return <ProgramLimits key={program} document={document} program={program} />;
  }
  return <SuggestionsPage document={document} />;
}
