/** The way to the reader's choices from the foot of the page. */

import { useState } from "preact/hooks";
import { t } from "../words/catalogue";
import { ChoicesPanel } from "./choices-panel";

export function SettingsFold() {
  const [open, setOpen] = useState(false);
  return (
    <section class="settings-fold" aria-label={t("Settings")}>
      <button
        type="button"
        class="button head-choices"
        aria-expanded={open}
        aria-controls="choices"
        onClick={() => setOpen(!open)}
      >
        {t("Settings")}
      </button>
      {open ? <ChoicesPanel /> : null}
    </section>
  );
}
