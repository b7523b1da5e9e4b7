/** Whether the browser promised to keep what is stored here, and what follows for edits that were not sent. */

import { keeping } from "../store/queries";
import { t } from "../words/catalogue";
import { askToKeep, installWay } from "./installing";

export function KeepingLine() {
  const asks = keeping.value === "at_risk";
  return (
    <div class="shell-line">
      <p>{keepingWords()}</p>
      {asks ? (
        <button type="button" class="button" onClick={() => void askToKeep()}>
          {t("Ask the browser to keep them")}
        </button>
      ) : null}
    </div>
  );
}

function keepingWords(): string {
  if (keeping.value === "persistent")
    return t("Unsent edits stay on this phone: the browser has promised to keep them.");
  if (keeping.value === "asking") return t("Asking the browser…");
  if (keeping.value === "unknown") return t("This browser does not say whether it keeps unsent edits.");
  return installWay.value === "installed"
    ? t("Unsent edits are at risk: the browser may clear them when space runs short.")
    : t("Unsent edits are at risk in a browser tab: the browser may clear them. Install the app to keep them safe.");
}
