/** Whether the browser promised to keep what is stored here, and what follows for what was not sent. */

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
          {t("Ask the browser to keep it")}
        </button>
      ) : null}
    </div>
  );
}

function keepingWords(): string {
  if (keeping.value === "persistent")
    return t("What is unsent stays on this phone: the browser has promised to keep it.");
  if (keeping.value === "asking") return t("Asking the browser…");
  if (keeping.value === "unknown") return t("This browser does not say whether it keeps what is unsent.");
  return installWay.value === "installed"
    ? t("What is unsent is at risk: the browser may clear it when space runs short.")
    : t("What is unsent is at risk in a browser tab: the browser may clear it. Install the app to keep it safe.");
}
