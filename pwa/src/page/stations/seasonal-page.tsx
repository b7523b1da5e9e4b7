/** The seasonal percentages: the site's own, and each program's besides it. */

import type { SiteDocument } from "../site/document";
import { ProgramChip } from "../tonight/program-chip";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import { figure } from "../words/figures";
import { Detail } from "./detail";
import { pctOf, siteId } from "./seasonal";
import { SeasonalEdit } from "./seasonal-edit";

export function SeasonalPage({ document, program }: { document: SiteDocument; program: string | null }) {
  const known = program !== null && document.programs.has(program);
  return (
    <Detail
      title={t("Seasonal percentage")}
      sub={<bdi>{known ? document.nameOf("program", program) : document.name}</bdi>}
    >
      {known ? (
        <SeasonalEdit key={program} document={document} table="programs" record={program} />
      ) : (
        <>
          <SeasonalEdit document={document} table="site" record={siteId(document)} />
          <ToSuggestions />
          <Programs document={document} />
        </>
      )}
    </Detail>
  );
}

function ToSuggestions() {
  return (
    <button type="button" class="row" onClick={() => go("need", "suggested")}>
      <span class="row-what">
        <span class="row-name">{t("Suggested percentages")}</span>
        <span class="row-under">{t("What each program’s should be, by the last days’ weather")}</span>
      </span>
    </button>
  );
}

function Programs({ document }: { document: SiteDocument }) {
  return (
    <section aria-labelledby="seasonal-programs">
      <div class="list-head">
        <h2 id="seasonal-programs">{t("Besides it, by program")}</h2>
      </div>
      {[...document.programs.values()].map((program) => (
        <button key={program.id} type="button" class="row" onClick={() => go("stations", "seasonal", program.id)}>
          <ProgramChip program={program} />
          <span class="row-what">
            <span class="row-name">
              <bdi>{program.name}</bdi>
            </span>
          </span>
          <span class="row-end turn-time">
            {t("{figure} %", { figure: figure(pctOf(document, "programs", program.id), 0) })}
          </span>
        </button>
      ))}
    </section>
  );
}
