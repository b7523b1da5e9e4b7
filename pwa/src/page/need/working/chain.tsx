/** From weather to minutes, step by step; each opens to all its figures. */

import { site } from "../../store/queries";
import { go } from "../../way/way";
import type { Work } from "../told/shapes";
import { FigureLine, readingWords } from "./figure-line";
import { stepWords } from "./step-words";
import { type Step, stepsOf } from "./steps";

export function Chain({ work }: { work: Work }) {
  return (
    <ol class="chain">
      {stepsOf(work).map((step) => (
        <ChainStep key={step.name} step={step} work={work} />
      ))}
    </ol>
  );
}

function ChainStep({ step, work }: { step: Step; work: Work }) {
  const { title, comes, line } = stepWords(step.name, work);
  return (
    <li class="chain-step" data-step={step.name}>
      <details>
        <summary>
          <span class="chain-title">{title}</span>
          <span class="chain-comes">{comes}</span>
          <span class="chain-line">{line}</span>
        </summary>
        <ul class="figures">
          {step.figures.map((figure) => (
            <FigureLine key={figure.key} figure={figure} />
          ))}
        </ul>
        {rowsOf(step).map((row) => (
          <button key={row} type="button" class="button figure-row" onClick={() => go("site", "weather", row)}>
            {readingWords(row)}
          </button>
        ))}
      </details>
    </li>
  );
}

/** The readings that the step rests on and that can be opened. */
function rowsOf({ figures }: Step): string[] {
  return [...new Set(figures.map(({ row }) => row))].filter((row) => row && site.value?.record("weather", row));
}
