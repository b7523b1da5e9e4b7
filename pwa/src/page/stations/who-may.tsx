/** Who may change things here, and how to become one of them: instead of buttons that do nothing. */

import { mayEdit, person } from "../store/queries";
import { go } from "../way/way";
import { t } from "../words/catalogue";

export function WhoMay() {
  if (mayEdit.value) return null;
  return (
    <div class="who-may">
      <p>
        {person.value
          ? t("Leads and managers of this site may change run times and ask for runs. You may write notes.")
          : t(
              "Leads and managers of this site may change run times and ask for runs. Join the team with a code from one of its managers.",
            )}
      </p>
      {person.value ? null : (
        <button type="button" class="button" onClick={() => go("join")}>
          {t("Join with a code")}
        </button>
      )}
    </div>
  );
}
