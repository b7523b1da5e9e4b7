/** The two weeks, a night a line: like a table of tides. */

import { timeAt } from "../night/reading";
import type { Program } from "../site/document";
import { ProgramChip } from "../tonight/program-chip";
import { catalogue, t } from "../words/catalogue";
import { listed } from "../words/lists";
import { HoursHead } from "./hours-head";
import { NightRow } from "./night-row";
import type { Outlook } from "./outlook";
import { SupplyKey } from "./supply-key";
import { useWidth } from "./use-width";
import { bareVolume, volumeUnit } from "./volumes";

interface NightsListProps {
  outlook: Outlook;
  program?: Program | undefined;
}

export function NightsList({ outlook, program }: NightsListProps) {
  const { ref, width } = useWidth<HTMLSpanElement>();
  const long = longFigures(outlook) ? " ahead-long" : "";
  return (
    <section class={`ahead-nights${long}`} aria-label={t("Nights")}>
      <div class="ahead-key">{program ? <InFront program={program} /> : <SupplyKey outlook={outlook} />}</div>
      <div class="ahead-row ahead-head" aria-hidden="true">
        <span class="ahead-day">{t("Night")}</span>
        <span class="ahead-picture" ref={ref}>
          <HoursHead outlook={outlook} width={width} mirrored={catalogue.value.direction === "rtl"} />
        </span>
        <span class="ahead-finish">{t("Finish")}</span>
        <span class="ahead-volume">{volumeUnit(outlook)}</span>
      </div>
      <ol class="ahead-list">
        {outlook.dates.map((date) => (
          <NightRow key={date} date={date} outlook={outlook} width={width} program={program} />
        ))}
      </ol>
      <Usual outlook={outlook} />
    </section>
  );
}

/** Whether the figures down the columns need more than `04:10` and `280` do: with halves of the day, or in gallons. */
function longFigures(outlook: Outlook): boolean {
  return [...outlook.nights.values()].some(
    ({ sheet, clock }) =>
      bareVolume(sheet.volume_l, outlook).length > 4 ||
      (sheet.finish !== null && timeAt(clock, sheet.finish).length > 6),
  );
}

function InFront({ program }: { program: Program }) {
  return (
    <>
      <p class="ahead-program">
        <ProgramChip program={program} />
        <bdi>{program.name}</bdi>
      </p>
      <p>{t("In front, this program. Behind it, the whole site.")}</p>
    </>
  );
}

/** What is shut on many nights is said once, below them all. */
function Usual({ outlook }: { outlook: Outlook }) {
  const names = [...outlook.usual].map((closure) => outlook.document.nameOf("closure", closure));
  if (names.length === 0) return null;
  return <p class="ahead-usual">{t("Shut on many of these nights: {closures}.", { closures: listed(names) })}</p>;
}
