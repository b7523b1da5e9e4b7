/** The room in which one looks two weeks ahead. */

import "../look/ahead.css";
import "../look/program-grid.css";
import { Patterns } from "../picture/patterns";
import { RoomHead } from "../way/room-head";
import { go } from "../way/way";
import { t, tn } from "../words/catalogue";
import { AboutChoice } from "./about-choice";
import { CellWhy } from "./cell-why";
import { NightsList } from "./nights-list";
import { NightsTable } from "./nights-table";
import { type About, aboutOf, type Outlook, outlook } from "./outlook";
import { ProgramGrid } from "./program-grid";
import { Shades } from "./shades";
import { useMedia } from "./use-media";

const DESK = "(min-width: 60rem)";

export function Room({ words }: { words: string[] }) {
  const found = outlook.value;
  const wide = useMedia(DESK);
  return (
    <div class="ahead">
      <RoomHead title={t("Ahead")} sub={found ? headline(found) : ""}>
        {found ? <AboutChoice about={aboutOf(words, found.document)} document={found.document} wide={wide} /> : null}
      </RoomHead>
      {found ? (
        <Nights found={found} about={aboutOf(words, found.document)} wide={wide} />
      ) : (
        <main class="plain-room">
          <p>{t("No night is worked out on this phone yet. The nights come with the next sync.")}</p>
        </main>
      )}
    </div>
  );
}

function Nights({ found, about, wide }: { found: Outlook; about: About; wide: boolean }) {
  const program = about.is === "program" ? found.document.programs.get(about.id) : undefined;
  return (
    <main class="ahead-main">
      <Patterns />
      <Shades />
      <Behind found={found} />
      {wide || about.is !== "programs" ? <NightsList outlook={found} program={program} /> : null}
      {wide || about.is === "programs" ? (
        <div class="ahead-programs">
          <ProgramGrid outlook={found} />
          <CellWhy outlook={found} />
          <button type="button" class="row" onClick={() => go("need", "suggested")}>
            <span class="row-what">
              <span class="row-name">{t("Suggested percentages")}</span>
              <span class="row-under">{t("What each program’s should be, by the last days’ weather")}</span>
            </span>
          </button>
        </div>
      ) : null}
      <NightsTable outlook={found} />
    </main>
  );
}

function headline(found: Outlook): string {
  const nights = [...found.nights.values()];
  const short = nights.filter((night) => night.sheet.shortfalls.length > 0).length;
  if (short > 0)
    return tn("{count} of {nights} nights short", "{count} of {nights} nights short", short, { nights: nights.length });
  return tn("{count} night, all fits", "{count} nights, all fits", nights.length);
}

/** Which nights do not know of the latest edits yet: said once above, and on each of them. */
function Behind({ found }: { found: Outlook }) {
  const count = [...found.nights.values()].filter((night) => night.behind).length;
  if (count === 0) return null;
  return (
    <p class="ahead-behind" role="status">
      {tn(
        "{count} night does not count the latest edits yet.",
        "{count} nights do not count the latest edits yet.",
        count,
      )}
    </p>
  );
}
