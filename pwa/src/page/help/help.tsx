/** The word Help in a room's head, and behind it the room's short text. It stands below the head until it is closed. */

import { useEffect, useState } from "preact/hooks";
import "../look/help.css";
import { place } from "../way/way";
import { t } from "../words/catalogue";

type Panel = typeof import("./help-panel").HelpPanel;

export function Help() {
  const { room } = place.value;
  const [open, setOpen] = useState(false);
  const [Shown, setShown] = useState<{ Panel: Panel } | null>(null);
  useEffect(() => setOpen(false), [room]);
  const turn = () => {
    setOpen(!open);
    if (!Shown) void import("./help-panel").then(({ HelpPanel }) => setShown({ Panel: HelpPanel }));
  };
  return (
    <>
      <button type="button" class="help-button" aria-expanded={open} aria-controls="help" onClick={turn}>
        <span class="help-sign" aria-hidden="true">
          ?
        </span>
        <span>{t("Help")}</span>
      </button>
      <div class="help-place" id="help" hidden={!open}>
        {open && Shown ? <Shown.Panel room={room} onClose={() => setOpen(false)} /> : null}
      </div>
    </>
  );
}
