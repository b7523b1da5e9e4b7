/** Droughts besides the one that is set here: later ones, and those that are over. */

import { records } from "../../records/desk";
import { recordTitle } from "../../records/record-words";
import type { SiteDocument } from "../../site/document";
import { go } from "../../way/way";
import { t } from "../../words/catalogue";
import { type Drought, droughtsOf } from "./drought";

interface OtherDroughtsProps {
  document: SiteDocument;
  shown: Drought | null;
  night: string;
}

export function OtherDroughts({ document, shown, night }: OtherDroughtsProps) {
  const others = droughtsOf(document).filter(
    ({ starts, ends }) => starts !== shown?.starts || ends !== (shown?.ends ?? ""),
  );
  if (others.length === 0) return null;
  return (
    <details class="as-table">
      <summary>{t("Other drought rules")}</summary>
      {others
        .flatMap(({ ends, rules }) => [...rules.values()].map((rule) => ({ rule, over: ends !== "" && ends < night })))
        .map(({ rule, over }) => (
          <button key={rule.id} type="button" class="row" onClick={() => go("site", "droughts", rule.id)}>
            <span class="row-what">
              <span class="row-name">
                <bdi>{recordTitle(rule, records.value)}</bdi>
              </span>
              {over ? <span class="row-under">{t("Over")}</span> : null}
            </span>
          </button>
        ))}
    </details>
  );
}
