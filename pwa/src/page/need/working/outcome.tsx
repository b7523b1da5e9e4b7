/** What the work comes to: the station, the turn's program, its run time on this night, and the decision in words. */

import type { SiteDocument } from "../../site/document";
import { StationTag } from "../../tonight/station-tag";
import { t } from "../../words/catalogue";
import { duration } from "../../words/durations";
import { sideBySide } from "../../words/lists";
import { nightSpan } from "../../words/moments";
import { sayNeed } from "../told/names";
import type { Work } from "../told/shapes";
import { amountOf } from "./steps";

interface OutcomeProps {
  document: SiteDocument;
  turn: string;
  night: string;
  /** Null while it is not known, and where the turn is set by hand. */
  work: Work | null;
}

export function Outcome({ document, turn, night, work }: OutcomeProps) {
  const record = document.record("turns", turn);
  const station = document.stations.get(String(record?.station ?? ""));
  return (
    <section class="outcome" aria-labelledby="outcome-place">
      <div class="outcome-place">
        <StationTag number={station?.number ?? String(record?.station ?? turn)} brass />
        <h2 id="outcome-place">
          <bdi>{station?.name ?? ""}</bdi>
        </h2>
        <p>{sideBySide([document.nameOf("program", String(record?.program ?? "")), night ? nightSpan(night) : ""])}</p>
      </div>
      {work ? <Result work={work} /> : null}
    </section>
  );
}

function Result({ work }: { work: Work }) {
  const run = amountOf(work, "run");
  if (run === null && !work.decision) return <p class="outcome-run">{t("Nothing worked out")}</p>;
  return (
    <>
      <p class="outcome-run">{run === null ? t("Nothing tonight") : duration(run)}</p>
      {work.decision ? <p class="outcome-said">{sayNeed(work.decision)}</p> : null}
    </>
  );
}
