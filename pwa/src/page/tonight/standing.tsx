/** How this night came about, where it is not simply the server's: with unsent edits, or not knowing of the last ones yet. */

import { nights } from "../night/nights";
import { t } from "../words/catalogue";

export function Standing({ night }: { night: string }) {
  const known = nights.value.get(night);
  if (!known || (known.from === "server" && !known.behind)) return null;
  return (
    <div class="standing" role="status">
      {known.from === "phone" ? <p>{t("With your unsent edits.")}</p> : null}
      {known.behind ? <p>{t("This night does not know of the last edits yet.")}</p> : null}
    </div>
  );
}
