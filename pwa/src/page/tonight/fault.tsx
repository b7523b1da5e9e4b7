/** What went wrong when the night was fetched. What is on the screen stays. */

import { asked, fault, load } from "../night/night";
import { t } from "../words/catalogue";

export function Fault() {
  if (!fault.value) return null;
  return (
    <div class="fault" role="alert">
      <p>{fault.value.detail || t("The server does not answer. What you see may be old.")}</p>
      <button type="button" class="button" onClick={() => void load(asked.value)}>
        {t("Try again")}
      </button>
    </div>
  );
}
