/** The list of what this room holds. */

import { go } from "../way/way";
import { t } from "../words/catalogue";
import { PARTS } from "./parts";

export function Overview() {
  const listed = Object.entries(PARTS).filter(([, part]) => part.about);
  return (
    <nav aria-label={t("Water need")}>
      <ul>
        {listed.map(([word, part]) => (
          <li key={word}>
            <button type="button" class="row need-entry" onClick={() => go("need", word)}>
              <span class="row-what">
                <span class="row-name">{part.title()}</span>
                <span class="row-under">{part.about?.()}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </nav>
  );
}
