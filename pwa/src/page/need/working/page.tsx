/** The work behind a turn: from weather to minutes, every figure with its unit, inputs, source and rung. */

import "../../look/need-work.css";
import type { SiteDocument } from "../../site/document";
import { site } from "../../store/queries";
import { t } from "../../words/catalogue";
import { PlanningAid } from "../planning-aid";
import { workTable } from "../told/csv";
import type { Work } from "../told/shapes";
import { NeedStanding } from "../told/standing";
import { TableWay } from "../told/table-way";
import { type Asked, useTold } from "../told/use-told";
import { NeedWarnings, WarningsAhead } from "../told/warnings";
import { Chain } from "./chain";
import { ModeChange } from "./mode-change";
import { NotFitting } from "./not-fitting";
import { Outcome } from "./outcome";
import { OwnWay } from "./own-way";
import { WorkWays } from "./ways";

/** `words`: the turn, and the night where it is not tonight. */
export function WorkPage({ words: [turn = "", night = ""] }: { words: string[] }) {
  const document = site.value;
  const record = document?.record("turns", turn);
  if (!document || !record) return <p class="need-note">{t("There is no such turn: it may have been removed.")}</p>;
  if (record.mode !== "need") return <OwnWay document={document} turn={turn} />;
  return <WorkOf document={document} turn={turn} on={night} />;
}

function WorkOf({ document, turn, on }: { document: SiteDocument; turn: string; on: string }) {
  const asked = useTold<Work>("work", turn, on);
  const night = asked.question.night || (asked.found?.night ?? "");
  return (
    <div class="work">
      <Outcome document={document} turn={turn} night={night} work={asked.found} />
      <NeedStanding asked={asked} />
      <NotFitting turn={turn} night={night} />
      <Told asked={asked} />
      <WorkWays document={document} turn={turn} />
      <ModeChange document={document} turn={turn} />
      <div class="need-files">
        <TableWay asked={asked} name={`${turn} ${night}`} made={workTable} />
      </div>
      <PlanningAid />
    </div>
  );
}

function Told({ asked: { found } }: { asked: Asked<Work> }) {
  if (!found) return null;
  return (
    <>
      {found.figures.length > 0 ? <WarningsAhead messages={found.messages} /> : null}
      {found.figures.length > 0 ? <Chain work={found} /> : null}
      <NeedWarnings messages={found.messages} />
    </>
  );
}
