/** Programs without a suggestion: those that are right as they stand, and those of which nothing can be said, and why. */

import type { SiteDocument } from "../../site/document";
import { pctOf } from "../../stations/seasonal";
import { ProgramChip } from "../../tonight/program-chip";
import { go } from "../../way/way";
import { t, tn } from "../../words/catalogue";
import { rightAsTheyStand, type Suggestions, withoutByReason } from "./suggestions";
import { pct } from "./words";

export function OtherPrograms({ document, found }: { document: SiteDocument; found: Suggestions }) {
  const right = rightAsTheyStand(found, document);
  return (
    <>
      {[...withoutByReason(found)].map(([code, { programs }]) => (
        <Unknown key={code} code={code} count={programs.length} />
      ))}
      {right.length > 0 ? (
        <details class="as-table">
          <summary>
            {tn("{count} program is right as it stands", "{count} programs are right as they stand", right.length)}
          </summary>
          {right.map((id) => (
            <button key={id} type="button" class="row" onClick={() => go("need", "suggested", id)}>
              <ProgramChip program={document.programs.get(id)} />
              <span class="row-what">
                <span class="row-name">
                  <bdi>{document.programs.get(id)?.name ?? id}</bdi>
                </span>
              </span>
              <span class="row-end turn-time">{pct(pctOf(document, "programs", id))}</span>
            </button>
          ))}
        </details>
      ) : null}
    </>
  );
}

/** What is missing, and the way to it. */
function Unknown({ code, count }: { code: string; count: number }) {
  const noPeak = code === "seasonal.no_peak";
  return (
    <div class="suggested-unknown">
      <p>
        {tn("Nothing can be suggested for {count} program.", "Nothing can be suggested for {count} programs.", count)}{" "}
        {noPeak
          ? t("The monthly normals are missing, and with them the peak of the year.")
          : t("Too few of the last seven days have weather.")}
      </p>
      <button type="button" class="button" onClick={() => go("site", noPeak ? "normals" : "weather")}>
        {noPeak ? t("To the monthly normals") : t("To the weather")}
      </button>
    </div>
  );
}
