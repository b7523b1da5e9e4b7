/** What the rules do to tonight: each hydrozone's depth before and after, and the runs. */

import { EffectView } from "../../effect/effect-view";
import { arrow, nightTitle } from "../../effect/phrases";
import type { SiteDocument } from "../../site/document";
import type { Change } from "../../store/shapes";
import { t } from "../../words/catalogue";
import { amount } from "../../words/units";
import { AskingLine } from "../asking-line";
import { type Compared, compared } from "./drought";
import type { DroughtFound } from "./use-drought-effect";

interface DroughtEffectProps {
  document: SiteDocument;
  changes: readonly Change[];
  found: DroughtFound;
}

export function DroughtEffect({ document, changes, found }: DroughtEffectProps) {
  return (
    <div class="drought-effect">
      <Depths document={document} found={found} />
      <EffectView state={found.effect} changes={changes} title={nightTitle} turn={null} />
    </div>
  );
}

function Depths({ document, found: { before, after } }: { document: SiteDocument; found: DroughtFound }) {
  const both = before.is === "known" && after.is === "known";
  return (
    <section aria-labelledby="drought-depths">
      <div class="list-head">
        <h2 id="drought-depths">{t("What each hydrozone gets tonight")}</h2>
      </div>
      {both ? (
        <ul>
          {compared(before.found, after.found).map((one) => (
            <Depth key={one.hydrozone} document={document} one={one} />
          ))}
        </ul>
      ) : (
        <AskingLine asked={before.is === "known" ? after : before} />
      )}
    </section>
  );
}

function Depth({ document, one }: { document: SiteDocument; one: Compared }) {
  const [before, after] = [amount("depth", one.before), amount("depth", one.after)];
  return (
    <li class="row">
      <span class="row-what">
        <span class="row-name">
          <bdi>{document.nameOf("hydrozone", one.hydrozone)}</bdi>
        </span>
      </span>
      {before === after ? (
        <span class="row-end effect-move">{after}</span>
      ) : (
        <span class="row-end effect-move">
          <span class="unseen">{t("from {before} to {after}", { before, after })}</span>
          <span aria-hidden="true">
            <span class="effect-from">{before}</span> {arrow()} <strong>{after}</strong>
          </span>
        </span>
      )}
    </li>
  );
}
