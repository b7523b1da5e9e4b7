/** When a night ends, before and after: the figures that people look at first. */

import { timeAt } from "../night/reading";
import type { NightSheet } from "../night/sheet";
import { freeStretch } from "../picture/axis";
import type { SiteClock } from "../site/clock";
import { t } from "../words/catalogue";
import { arrow, finishWords } from "./phrases";

interface EffectFiguresProps {
  title?: string | undefined;
  before: NightSheet;
  after: NightSheet;
  clock: SiteClock;
}

export function EffectFigures({ title, before, after, clock }: EffectFiguresProps) {
  const closes = timeAt(clock, freeStretch(after).to);
  const [from, to] = [finishOf(before, clock), finishOf(after, clock)];
  return (
    <div class="effect-figures">
      {title ? <h2 class="effect-title">{title}</h2> : null}
      <p class="effect-closes">{t("water until {time}", { time: closes })}</p>
      <p class="effect-times">
        <span class="unseen">{t("Finish before {before}, after {after}.", { before: from, after: to })}</span>
        <span aria-hidden="true">
          <span class="effect-was">{from}</span> <span class="effect-arrow">{arrow()}</span>{" "}
          <span class="effect-now">{to}</span>
        </span>
      </p>
      <p class="effect-later">{finishWords({ before, after })}</p>
    </div>
  );
}

function finishOf(sheet: NightSheet, clock: SiteClock): string {
  return sheet.finish === null ? "–" : timeAt(clock, sheet.finish);
}
