/** A room's short text, and the way to more. */

import { go, type RoomName } from "../way/way";
import { t } from "../words/catalogue";
import { helpFor } from "./texts";

export function HelpPanel({ room, onClose }: { room: RoomName; onClose: () => void }) {
  const { lines } = helpFor(room);
  return (
    <section class="help-panel" aria-label={t("Help")}>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <div class="help-ways">
        <button type="button" class="help-way" onClick={onClose}>
          {t("Close")}
        </button>
        <button type="button" class="help-way" onClick={() => go("more", "help")}>
          {t("All help")}
        </button>
      </div>
    </section>
  );
}
