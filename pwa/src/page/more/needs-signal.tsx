/** What stands over a list that only the server has: how old it is, that it needs signal, or what the server said. */

import { whenHere } from "../shell/line-words";
import { t } from "../words/catalogue";
import type { Known } from "./known-list";

export function NeedsSignal({ known, reload }: { known: Known<unknown>; reload: () => void }) {
  if (!known.fault) return known.items || !known.busy ? null : <p class="more-note">{t("Asking the server…")}</p>;
  return (
    <div class="more-alert" role="status">
      <p>{words(known)}</p>
      <button type="button" class="button" disabled={known.busy} onClick={reload}>
        {t("Try again")}
      </button>
    </div>
  );
}

function words({ fault, at, items }: Known<unknown>): string {
  if (fault && fault.status > 0 && fault.detail) return fault.detail;
  if (!items || at === null) return t("This needs signal. It was never fetched on this phone.");
  return t("This needs signal. You see it as of {time}.", { time: whenHere(at, Date.now()) });
}
