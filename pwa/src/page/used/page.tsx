/** What was used: planned, delivered and lost water of a year, against meters and the year before, and what faults cost. */

import "../look/controls.css";
import "../look/lists.css";
import "../look/need.css";
import "../look/used.css";
import { useMemo } from "preact/hooks";
import { Choice } from "../controls/choice";
import { NeedsSignal } from "../more/needs-signal";
import { useKnown } from "../more/use-known";
import { PlanningAid } from "../need/planning-aid";
import { copy, person, site } from "../store/queries";
import { refine } from "../way/way";
import { t } from "../words/catalogue";
import { byIn, usedIn, yearIn } from "./asking";
import { Bars } from "./bar-picture";
import { hasWater, ordered } from "./bars";
import { Faults } from "./faults";
import { Files } from "./files";
import { Headline } from "./headline";
import { LineTable } from "./line-table";
import { LostList } from "./lost-list";
import { Meters } from "./meters";
import { ReadingForm } from "./reading-form";
import { Taken } from "./taken";
import { byOptions } from "./words";
import { YearChoice } from "./year-choice";

export function UsedPage({ words: [yearWord, byWord] }: { words: string[] }) {
  const [year, by] = [yearIn(yearWord), byIn(byWord)];
  const answer = useMemo(() => usedIn(year, by), [year, by, copy.value?.site]);
  const known = useKnown(answer);
  const [used, document] = [known.items, site.value];
  if (!document) return <p class="more-note">{t("No site is on this phone yet.")}</p>;
  const lines = used ? ordered(used.lines, by === "month") : [];
  return (
    <div class="used">
      <YearChoice year={year} by={by} />
      <NeedsSignal known={known} reload={() => void answer.load()} />
      {used ? (
        <>
          <Headline used={used} />
          <div class="used-by">
            <Choice
              label={t("Put together by")}
              value={by}
              options={byOptions()}
              onChange={(to) => refine("more", "used", String(year), to)}
            />
          </div>
          {lines.length > 0 ? (
            <>
              <Bars lines={lines.filter(hasWater)} by={by} />
              <LineTable lines={lines} total={used.total} by={by} />
              <LostList total={used.total} />
            </>
          ) : null}
          <Meters used={used} document={document} />
          {person.value && copy.value ? <ReadingForm document={document} /> : null}
          <Faults used={used} />
          <Taken said={used.said} />
          {used.nights > 0 ? <Files year={year} by={by} /> : null}
        </>
      ) : null}
      <PlanningAid />
    </div>
  );
}
