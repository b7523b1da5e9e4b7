/** What becomes of each chosen turn: its time before and after. The first few in sight. */

import { useState } from "preact/hooks";
import { arrow } from "../effect/phrases";
import type { SiteDocument } from "../site/document";
import { StationTag } from "../tonight/station-tag";
import { t, tn } from "../words/catalogue";
import type { StationLine } from "./list";
import type { NewTime } from "./run-times";
import { runWords } from "./run-words";

const FIRST = 4;

interface NewTimesProps {
  document: SiteDocument;
  lines: readonly StationLine[];
  times: readonly NewTime[];
}

export function NewTimes({ document, lines, times }: NewTimesProps) {
  const [all, setAll] = useState(false);
  const of = new Map(lines.flatMap((line) => line.turns.map((turn) => [turn.id, line])));
  const more = times.length - FIRST;
  return (
    <>
      <ul class="new-times">
        {(all ? times : times.slice(0, FIRST)).map(({ turn, run_s }) => (
          <li key={turn.id} class="row">
            <StationTag number={of.get(turn.id)?.number ?? ""} />
            <span class="row-what">
              <span class="row-name">
                <bdi>{of.get(turn.id)?.name ?? ""}</bdi>
              </span>
              <span class="row-under">
                <bdi>{document.programs.get(turn.program)?.name ?? ""}</bdi>
              </span>
            </span>
            <span class="row-end effect-move">
              <span class="unseen">
                {t("from {before} to {after}", { before: runWords(turn.run_s), after: runWords(run_s) })}
              </span>
              <span aria-hidden="true">
                <span class="effect-from">{runWords(turn.run_s)}</span> {arrow()} <strong>{runWords(run_s)}</strong>
              </span>
            </span>
          </li>
        ))}
      </ul>
      {more > 0 && !all ? (
        <button type="button" class="row effect-more" onClick={() => setAll(true)}>
          {tn("Show the other {count}", "Show the other {count}", more)}
        </button>
      ) : null}
    </>
  );
}
