/** Whether the app opens without signal: only said when every file is there. */

import type { KeptState } from "../../wire/shell";
import { t } from "../words/catalogue";
import { keepEverything, kept, offline } from "./registering";

export function OfflineLine() {
  const state = kept.value;
  return (
    <div class="shell-line">
      <p>{offlineWords(state)}</p>
      {state && !state.ready ? <Progress state={state} /> : null}
      {state?.stopped ? (
        <button type="button" class="button" onClick={keepEverything}>
          {t("Try again")}
        </button>
      ) : null}
    </div>
  );
}

function offlineWords(state: KeptState | null): string {
  if (offline.value === "off") return t("The server has switched off keeping the app. It needs signal to open.");
  if (offline.value === "none") return t("This browser does not keep the app. It needs signal to open.");
  if (!state) return t("Looking at what is on this phone…");
  if (state.ready) return t("Ready for offline: every file is on this phone.");
  if (state.stopped === "room") return t("There is no room left on this phone for the whole app.");
  if (state.stopped === "line") return t("Not ready for offline yet: the line broke.");
  return t("Getting ready for offline.");
}

/** The shell is there wherever this is read; the languages are small, and the planner is what takes its time. */
function Progress({ state }: { state: KeptState }) {
  const kinds = Object.values(state.kinds);
  const have = kinds.reduce((sum, kind) => sum + kind.have, 0);
  const of = kinds.reduce((sum, kind) => sum + kind.of, 0);
  return (
    <>
      <progress class="shell-progress" max={of} value={have} aria-hidden="true" />
      <p class="shell-files">{t("{have} of {of} files", { have, of })}</p>
    </>
  );
}
