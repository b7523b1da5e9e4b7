/** What the room is about: all nights of the site, its programs night by night, or one program's nights. */

import type { SiteDocument } from "../site/document";
import { refine } from "../way/way";
import { t } from "../words/catalogue";
import type { About } from "./outlook";

export function AboutChoice({ about, document, wide }: { about: About; document: SiteDocument; wide: boolean }) {
  return (
    <div class="about-choice">
      <button
        type="button"
        class="button about-button"
        aria-pressed={about.is === "site" || (wide && about.is === "programs")}
        onClick={() => refine("ahead")}
      >
        {t("Whole site")}
      </button>
      {wide ? null : (
        <button
          type="button"
          class="button about-button"
          aria-pressed={about.is !== "site"}
          onClick={() => refine("ahead", "programs")}
        >
          {t("Programs")}
        </button>
      )}
      {wide ? <OneProgram about={about} document={document} /> : null}
    </div>
  );
}

function OneProgram({ about, document }: { about: About; document: SiteDocument }) {
  return (
    <select
      class="about-program"
      aria-label={t("One program")}
      value={about.is === "program" ? about.id : ""}
      onChange={(event) => pick(event.currentTarget.value)}
    >
      <option value="">{t("One program…")}</option>
      {[...document.programs.values()].map((program) => (
        <option key={program.id} value={program.id}>
          {program.name}
        </option>
      ))}
    </select>
  );
}

function pick(program: string): void {
  if (program) refine("ahead", "program", program);
  else refine("ahead");
}
