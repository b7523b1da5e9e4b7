/** What stands in place of stations where a site has none yet: the way to its first steps. */

import { go } from "../way/way";
import { t } from "../words/catalogue";

export function NoStations() {
  return (
    <>
      <h2>{t("This site has no stations yet")}</h2>
      <p>{t("Enter its water first, then its stations and programs: a few steps lead you there.")}</p>
      <button type="button" class="button button-first" onClick={() => go("more", "first-steps")}>
        {t("First steps")}
      </button>
    </>
  );
}
