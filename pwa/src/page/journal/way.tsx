/** The way from a station or a supply to what happened there. */

import { person } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";
import type { About } from "./choosing";

export function JournalWay({ table, id }: About) {
  if (!person.value) return null;
  return (
    <button type="button" class="button" onClick={() => go("more", "journal", table, id)}>
      {t("What happened here")}
    </button>
  );
}
