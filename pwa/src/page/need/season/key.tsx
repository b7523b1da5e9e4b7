/** What the marks of a season's picture mean. */

import { t } from "../../words/catalogue";

export function SeasonKey() {
  const marks: [string, string][] = [
    ["water", t("Water in the soil")],
    ["ready", t("Stress begins")],
    ["stress", t("Under stress")],
    ["rain", t("Rain")],
    ["applied", t("Watering")],
  ];
  return (
    <ul class="season-key">
      {marks.map(([mark, words]) => (
        <li key={mark}>
          <svg width="28" height="18" viewBox="0 0 28 18" aria-hidden="true">
            {mark === "ready" ? (
              <path class="season-ready" d="M0 9H28" />
            ) : (
              <rect
                class={`season-${mark}`}
                x="1"
                y="1"
                width="26"
                height="16"
                fill={mark === "stress" ? "url(#season-stress)" : undefined}
              />
            )}
          </svg>
          {words}
        </li>
      ))}
    </ul>
  );
}
