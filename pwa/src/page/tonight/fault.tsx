/** What went wrong when the night was fetched. What is on the screen stays. */

import { asked, fault, load } from "../night/night";
import { line } from "../store/queries";
import { t } from "../words/catalogue";

export function Fault() {
  // That there is no signal stands in the banner already.
  if (!fault.value || (fault.value.status === 0 && line.value.now === "no_signal")) return null;
  return (
    <div class="fault" role="alert">
      <p>{fault.value.detail || t("The server does not answer. What you see may be old.")}</p>
      <button type="button" class="button" onClick={() => void load(asked.value)}>
        {t("Try again")}
      </button>
    </div>
  );
}
