/** Whose night this is, and the way to the reader's choices. */

import { useState } from "preact/hooks";
import type { LoadedNight } from "../night/night";
import { t } from "../words/catalogue";
import { nightSpan } from "../words/moments";
import { ChoicesPanel } from "./choices-panel";
import { Mark } from "./mark";

interface HeaderProps {
  night: LoadedNight;
  /** What else has room in it. */
  children: preact.ComponentChildren;
}

export function Header({ night, children }: HeaderProps) {
  const [open, setOpen] = useState(false);
  return (
    <header class="head">
      <Mark />
      <div class="head-names">
        <h1>
          <bdi>{night.document.name}</bdi>
        </h1>
        <p>{nightSpan(night.sheet.night)}</p>
      </div>
      <button
        type="button"
        class="button head-choices"
        aria-expanded={open}
        aria-controls="choices"
        onClick={() => setOpen(!open)}
      >
        {t("Settings")}
      </button>
      {children}
      {open ? <ChoicesPanel /> : null}
    </header>
  );
}
