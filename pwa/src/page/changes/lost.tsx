/** What was to be decided here has been decided meanwhile. */

import { t } from "../words/catalogue";

export function Lost() {
  return <p class="list-none">{t("This has been decided meanwhile, or is not on this phone.")}</p>;
}
