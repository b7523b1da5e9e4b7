/** A turn whose run time somebody set: there is no work to show, and the way to have it worked out. */

import { tonightDate } from "../../night/nights";
import type { SiteDocument } from "../../site/document";
import { t } from "../../words/catalogue";
import { duration } from "../../words/durations";
import { ModeChange } from "./mode-change";
import { Outcome } from "./outcome";
import { WorkWays } from "./ways";

export function OwnWay({ document, turn }: { document: SiteDocument; turn: string }) {
  const run = Number(document.record("turns", turn)?.run_s ?? 0);
  return (
    <div class="work">
      <Outcome document={document} turn={turn} night={tonightDate.value} work={null} />
      <p class="need-note">
        {t("Its run time is set by hand: {run}. There is no work to show.", { run: duration(run) })}
      </p>
      <ModeChange document={document} turn={turn} />
      <WorkWays document={document} turn={turn} />
    </div>
  );
}
