/** What became of the lines of a file that was brought in. */

import { t, tn } from "../words/catalogue";
import { figure } from "../words/figures";
import { listed } from "../words/lists";
import type { EntryFault } from "./shapes";

/** As the server answers. `lines`: the first of those that were kept aside. */
export interface BroughtAnswer {
  taken: number;
  known: number;
  aside: number;
  lines: { line: number; faults: EntryFault[] }[];
  left_out: string[];
}

export function BroughtList({ brought }: { brought: BroughtAnswer }) {
  const { taken, known, aside, lines, left_out } = brought;
  const more = aside - lines.length;
  return (
    <section class="brought" aria-label={t("What became of it")}>
      <div role="status">
        <p>{tn("{count} entry taken", "{count} entries taken", taken)}</p>
        {known ? <p>{tn("{count} was known already", "{count} were known already", known)}</p> : null}
        {aside ? <p>{tn("{count} kept aside", "{count} kept aside", aside)}</p> : null}
        {left_out.length ? <p>{t("Columns that are not read: {names}", { names: listed(left_out) })}</p> : null}
      </div>
      <ul class="more-list">
        {lines.map((one) => (
          <li key={one.line} class="aside-line">
            <p>{t("Line {number}", { number: figure(one.line, 0) })}</p>
            <ul class="aside-reasons">
              {one.faults.map((fault) => (
                <li key={`${fault.field}${fault.code}`}>
                  {fault.field ? <code dir="ltr">{fault.field}</code> : null} {fault.detail}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
      {more > 0 ? <p class="more-note">{tn("And {count} more line.", "And {count} more lines.", more)}</p> : null}
    </section>
  );
}
